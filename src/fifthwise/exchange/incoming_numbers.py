"""Number sheets as songs: each choice of how they are typed that is open may be settled."""

from pathlib import PurePath

from fifthwise.exchange.file_kinds import KIND_NAMES
from fifthwise.exchange.file_text import check_length
from fifthwise.exchange.incoming_made import song_of_reading
from fifthwise.exchange.incoming_song import NO_WISH, Incoming, Option, Question, Wish
from fifthwise.exchange.numbers import OpenPoint, read_number_sheet

__all__ = ["NUMBERS", "number_songs"]

NUMBERS = "numbers-"  # before a choice's name, in a question's


def number_songs(text: str, file: str, wish: Wish) -> Incoming:
    """The one song of a number sheet."""
    check_length(text, file)
    found = read_number_sheet(
        text, PurePath(file).name, wish.key, title=wish.title, wishes=dict(wish.numbers)
    )
    questions = tuple(map(_question, found.guess.points))
    return Incoming(KIND_NAMES["numbers"], (song_of_reading(found.reading, NO_WISH, questions=questions),))


def _question(point: OpenPoint) -> Question:
    options = tuple(Option(each.value, each.words, each.consequence) for each in point.options)
    return Question(NUMBERS + point.name, point.text, options, point.chosen, point.sure)
