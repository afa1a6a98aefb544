"""A number sheet, typed as other people type it, read as a chart."""

from collections.abc import Mapping
from dataclasses import dataclass, fields

from fifthwise.chart import Chart, Fault
from fifthwise.exchange.errors import ExchangeError
from fifthwise.exchange.letter_chart import is_chart_text
from fifthwise.exchange.letter_reading import (
    LetterReading,
    chart_of_letters,
    nothing_read,
    source_of,
    too_long,
    without_remarks,
)
from fifthwise.exchange.letter_sheet import NUMBERS
from fifthwise.exchange.letter_tokens import is_chord
from fifthwise.exchange.numbers.convention import DIMENSIONS, Convention
from fifthwise.exchange.numbers.evidence import typed_bars
from fifthwise.exchange.numbers.guess import Guess, OpenPoint, guess_convention
from fifthwise.exchange.numbers.items import line_items, numbers_in
from fifthwise.exchange.numbers.lone import is_lone_letter
from fifthwise.exchange.numbers.sheet import NumberSheetReader, without_bar_lines
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import Key, Numbering, read_key

__all__ = ["ReadNumbers", "is_number_sheet", "read_number_sheet"]

C_MAJOR = read_key("C")
FEWEST = 3  # chords of a sheet
FEWEST_LINES = 2  # of nothing but numbers


@dataclass(frozen=True, slots=True)
class ReadNumbers:
    """A number sheet, read.

    Attributes
    ----------
    reading : Reading
        The chart, its faults, and notices of what was left out; the chart can be written where there are no
        faults.
    guess : Guess
        The convention that was taken, and what of it is open.
    """

    reading: LetterReading
    guess: Guess

    @property
    def chart(self) -> Chart:
        """The chart, in plain numbers."""
        return self.reading.chart

    @property
    def faults(self) -> tuple[Fault, ...]:
        """What could not be read."""
        return self.reading.faults

    @property
    def told(self) -> tuple[str, ...]:
        """What was left out, settled or guessed, in short sentences without a full stop."""
        notices = tuple(f"line {notice.line}: {notice.what}" for notice in self.reading.notices)
        return (*notices, *map(_said, (point for point in self.guess.points if not point.sure)))


def _said(point: OpenPoint) -> str:
    chosen = next(option for option in point.options if option.value == point.chosen)
    return f"{point.text.rstrip('?')} is guessed: {chosen.words}; {chosen.consequence}"


def is_number_sheet(text: str) -> bool:
    """Whether a text that is no chart of ours has its chords in numbers.

    Most lines that hold chords at all must hold numbers, three or more in all, that read as chords.
    """
    if is_chart_text(text):
        return False
    lines = text.splitlines()[:400]
    letters = sum(_all_letters(line) for line in lines)
    source = source_of("\n".join(lines), "sheet")
    gathered = _gather(source, None)
    guess = guess_convention(gathered.music, {}, C_MAJOR) if gathered.music else None
    if guess is None or letters > len(gathered.music):
        return False
    bars = [bar for line in gathered.music for bar in typed_bars(line, guess.convention)]
    chords = [chord for bar in bars for chord in bar.chords]
    if len(chords) < FEWEST:
        return False
    return _nothing_but_numbers(lines) or not _mostly_unread(gathered, guess.convention)


def _nothing_but_numbers(lines: list[str]) -> bool:
    """Whether some lines are, and no bars stand in letters: whatever is wrong in them, they are no words."""
    letters = any(_all_letters(line) and not is_lone_letter(line) for line in lines)
    return not letters and sum(bool(NUMBERS.match(line.strip())) for line in lines) >= FEWEST_LINES


def _all_letters(line: str) -> bool:
    words = line.replace("|", " ").split()
    return bool(words) and all(is_chord(word) or word in ("%", "/") for word in words)


def _mostly_unread(gathered: NumberSheetReader, convention: Convention) -> bool:
    """Whether more than a fifth of the words of the bars are no chords."""
    source = Source("sheet", gathered.source.lines)
    sheet = _read_lines(source, gathered.head.key, convention)
    words = sum(len(numbers_in(line_items(line.text))) for line in sheet.music)
    return len(source.faults) * 5 > words


def read_number_sheet(
    text: str,
    file: str,
    key: Key | None = None,
    *,
    convention: Convention | None = None,
    wishes: Mapping[str, str] | None = None,
    title: str | None = None,
) -> ReadNumbers:
    """Read a number sheet.

    Parameters
    ----------
    text : str
        Headings, bars in numbers, words; see ``docs/number-sheets.md``.
    file : str
        The name under which faults are told; without its suffix the title of a sheet that has none.
    key : Key, optional
        The key in which the chart is written; ``None`` takes the sheet's, or else C.
    convention : Convention, optional
        How the sheet is typed; ``None`` guesses it.
    wishes : mapping of str to str, optional
        Single choices of the convention, by the names in ``DIMENSIONS``; the others are guessed.
    title : str, optional
        The title, whatever the sheet says.

    Raises
    ------
    ExchangeError
        A wish names no choice of a convention.
    """
    settled = _settled(convention, wishes or {}, file)
    source = source_of(text, file)
    nothing = Guess(convention or Convention(), ())
    if too_long(source, text):
        return ReadNumbers(nothing_read(source), nothing)
    if is_chart_text(text):
        source.fault(source.whole(1), "this is chart text already", "Check it with 'fifthwise check'")
        return ReadNumbers(nothing_read(source), nothing)
    gathered = _gather(source_of(text, file), key)
    if not gathered.music:
        what, fix = "there are no bars of numbers", "Write bars, as in '| 1 | 4 5 | 6- |' or '1 4 5 6-'"
        source.fault(Piece("", len(source.lines), 1, 1), what, fix)
        return ReadNumbers(nothing_read(source), nothing)
    guess = guess_convention(gathered.music, settled, gathered.head.key or C_MAJOR)
    return ReadNumbers(_chart(source, key, guess.convention, title), guess)


def _settled(convention: Convention | None, wishes: Mapping[str, str], file: str) -> dict[str, str]:
    """Every choice that is made beforehand."""
    settled = (
        {each.name: str(getattr(convention, each.name)) for each in fields(Convention)} if convention else {}
    )
    for name, value in wishes.items():
        if value not in DIMENSIONS.get(name, ()):
            options = ", ".join(DIMENSIONS.get(name, DIMENSIONS))
            raise ExchangeError(
                f"'{name}' of a number sheet cannot be '{value[:20]}'", file, f"Name one of {options}"
            )
        settled[name] = value
    return settled


def _gather(source: Source, key: Key | None) -> NumberSheetReader:
    """The lines of bars, and what the head says, without reading the bars."""
    sheet = NumberSheetReader(source, key, Convention(), only_gather=True)
    for number, line in enumerate(without_remarks(source), start=1):
        sheet.read(line, number)
    return sheet


def _read_lines(source: Source, key: Key | None, convention: Convention) -> NumberSheetReader:
    sheet = NumberSheetReader(source, key, convention)
    sheet.read_all(without_remarks(source))
    return sheet


def _chart(source: Source, key: Key | None, convention: Convention, title: str | None) -> LetterReading:
    sheet = _read_lines(source, key, convention)
    at = Piece("", 1, 1, 1)
    if sheet.head.key is None:
        sheet.head.set_key(C_MAJOR)
        for section in sheet.sections:
            section.key = section.key or sheet.holding.head["key"]
        source.tell(
            at, "the sheet does not say its key; the chart is kept in C", "Name the key that is played"
        )
    if without_bar_lines(sheet.music) and convention.bars in ("spaces", "digits", "lines"):
        fix = "Put '|' between the bars where it is otherwise"
        source.tell(at, "the sheet has no bar lines; one chord a bar is taken", fix)
    return chart_of_letters(sheet, title, Numbering(convention.minor))
