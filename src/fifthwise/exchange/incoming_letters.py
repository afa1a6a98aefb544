"""Sheets typed in letters as songs: the key that was found and how many chords a bar has may be settled."""

from pathlib import PurePath

from fifthwise.exchange.errors import ExchangeError
from fifthwise.exchange.file_kinds import KIND_NAMES
from fifthwise.exchange.file_text import check_length
from fifthwise.exchange.incoming_made import song_of_reading
from fifthwise.exchange.incoming_song import NO_WISH, Incoming, Option, Question, Wish
from fifthwise.exchange.letter_chart import read_letter_chart
from fifthwise.exchange.letter_reading import LetterReading
from fifthwise.theory import Key

__all__ = ["key_question", "letter_songs"]

MOST_A_BAR = 4


def letter_songs(text: str, file: str, wish: Wish) -> Incoming:
    """The one song of a sheet in letters."""
    check_length(text, file)
    reading = read_letter_chart(
        text, PurePath(file).name, wish.key, title=wish.title, numbering=wish.numbering,
        chords_a_bar=_chords_a_bar(wish, file),
    )  # fmt: skip
    song = song_of_reading(reading, NO_WISH, questions=_questions(reading))
    return Incoming(KIND_NAMES["letters"], (song,))


def _chords_a_bar(wish: Wish, file: str) -> int:
    if wish.bars is None:
        return 1
    if wish.bars.isdecimal() and 1 <= int(wish.bars) <= MOST_A_BAR:
        return int(wish.bars)
    what = f"'{wish.bars[:20]}' chords a bar cannot be read"
    raise ExchangeError(what, file, f"Name 1 to {MOST_A_BAR}")


def _questions(reading: LetterReading) -> tuple[Question, ...]:
    questions = []
    if reading.found is not None:
        first, second = reading.found.first, reading.found.runner_up
        questions.append(key_question(first, second, sure=reading.found.is_sure, how_sure=reading.found.sure))
    if reading.chords_a_bar is not None:  # one a bar is the custom, and a notice says so: nothing has to wait
        options = tuple(Option(str(n), f"{n} a bar") for n in range(1, MOST_A_BAR + 1))
        chosen = str(reading.chords_a_bar)
        questions.append(Question("bars", "How many chords has a bar?", options, chosen, sure=True))
    return tuple(questions)


def key_question(first: Key, second: Key, *, sure: bool, how_sure: float | None = None) -> Question:
    """Which key the song is in, where it was found: the likeliest and the one that comes next."""
    said = "" if how_sure is None else f"{how_sure:.0%} likely by its chords"
    options = (Option(first.short, str(first), said), Option(second.short, str(second), "comes next"))
    return Question("key", "Which key is it in?", options, first.short, sure)
