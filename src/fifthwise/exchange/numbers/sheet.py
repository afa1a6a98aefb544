"""A number sheet read line by line; what is no bars is read as on a chart in letters."""

import re
from dataclasses import dataclass

from fifthwise.exchange.letter_headings import Heading, is_part, read_heading
from fifthwise.exchange.letter_sheet import SheetReader
from fifthwise.exchange.numbers.convention import Convention
from fifthwise.exchange.numbers.hand import NumberHand
from fifthwise.exchange.numbers.items import is_music_line
from fifthwise.exchange.numbers.lone import LABELS, are_lettered, lone_heading, lone_key
from fifthwise.exchange.numbers.words import is_musical
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import Key, Metre, TheoryError, read_metre

__all__ = ["MusicLine", "NumberSheetReader", "underlines", "without_bar_lines"]

UNDERLINE = re.compile(r"[\s_]*_[\s_]*\Z")
LABEL = re.compile(r"\s{0,20}(\S{1,14}(?:[ ]\S{1,14}){0,2}?)(?:[ ]?(\d{1,2}))??\s{0,3}[:.)–-]?\s+(?=\S)")
VERSE_NUMBER = re.compile(r"\s{0,8}\d{1,2}[.)]\s{0,8}\Z")
BARE_FRACTION = re.compile(r"\d/\d\Z")
ROMANS = re.compile(r"[IVv]")
ROMAN_LABEL = re.compile(r"[ivIV]\Z")  # intro and verse, where all else are digits
PHRASE = 4
STROKE = re.compile(r"(?<![|:])\|(?![|:])")


@dataclass(frozen=True, slots=True)
class MusicLine:
    """A line of bars, or what follows a heading on its line; ``spans`` are the columns underlined."""

    text: str
    line: int
    column: int
    metre: Metre
    key: Key
    spans: tuple[tuple[int, int], ...]
    section: int


class NumberSheetReader(SheetReader):
    """Reads the lines of a number sheet into sections."""

    def __init__(
        self, source: Source, key: Key | None, convention: Convention, *, only_gather: bool = False
    ) -> None:
        self.convention, self.only_gather = convention, only_gather
        self.under = underlines(source.lines)
        self.roman = any(ROMANS.search(line) and _is_numerals(line) for line in source.lines)
        self.lettered = are_lettered(source.lines)
        self.music: list[MusicLine] = []
        self.hand: NumberHand
        super().__init__(source, key)

    def _hand(self) -> NumberHand:
        self.hand = NumberHand(self.source, self.holding, self.convention)
        return self.hand

    @property
    def begun(self) -> bool:
        """Whether any bars have been read."""
        return bool(self.music)

    def _fields(self, text: str, line: int) -> bool:
        words = text.replace("|", " ").split()
        fractions = bool(words) and all(map(BARE_FRACTION.match, words))
        if fractions and (len(words) > 1 or "|" in text or not _is_metre(words[0])):
            return False
        return super()._fields(text, line)

    def _heading_or_bars(self, text: str, line: int, at: Piece) -> None:
        labelled = _labelled(text) or _named(text)
        if labelled is not None:
            self._open_section(labelled, line)
        elif self._lone(text, line, at):
            return
        elif is_music_line(text) and not VERSE_NUMBER.match(text):
            self._bars(text, line, 1)
        else:
            self._no_bars(text, line, at)

    def _lone(self, text: str, line: int, at: Piece) -> bool:
        """Read a letter alone on its line: above all bars the key, else a part; say whether it was one."""
        heading, key = lone_heading(text), lone_key(text)
        if self.roman and ROMAN_LABEL.match(text.strip()):
            return False
        above = not self.sections and not self.begun
        if key is not None and above and not (self.lettered and key.text == "A"):
            taken = self.head.key is None
            self.head.read(key, line, begun=False)
            if taken:
                self.source.tell(
                    at, f"'{key.text}' is taken as the key", f"Write '[{key.text}]' if it is a part"
                )
        elif heading is not None and ("title" in self.head.texts or not above or at.text[-1].isdigit()):
            self._open_section(heading, line)
        elif key is not None and self.begun:
            self.head.read(key, line, begun=True)
            self.source.tell(
                at, f"'{key.text}' is taken as a new key", f"Write '[{key.text}]' if it is a part"
            )
        else:
            return False
        return True

    def _no_bars(self, text: str, line: int, at: Piece) -> None:
        heading = read_heading(text)
        if heading is not None and self._is_title(heading, text):
            self.head.texts["title"] = Piece(heading.name, line, heading.column, heading.length)
        elif heading is not None and (heading.sure or self._is_bars(heading.rest) or not heading.rest):
            self._open_section(heading, line)
        else:
            self._bars_or_words(text, line, at, 1)

    def _bars_or_words(self, text: str, line: int, at: Piece, column: int) -> None:
        if is_music_line(text):
            self._bars(text, line, column)
        else:
            self._words(at)

    def _is_bars(self, text: str) -> bool:
        return is_music_line(text)

    def _bars(self, text: str, line: int, column: int) -> None:
        spans = self.under.get(line, ())
        try:
            metre = read_metre(self.holding.value("meter"))
        except TheoryError:
            metre = read_metre("4/4")
        found = MusicLine(text, line, column, metre, self.hand.key, spans, len(self.sections))
        self.music.append(found)
        if not self.only_gather:
            self.hand.spans = spans
            super()._bars(text, line, column)


def underlines(lines: list[str]) -> dict[int, tuple[tuple[int, int], ...]]:
    """The columns that are underlined in each line, by the line's number from 1, where the next says so."""
    found = {}
    for number, text in enumerate(lines):
        if number and UNDERLINE.match(text):
            spans = tuple((match.start() + 1, match.end()) for match in re.finditer(r"_+", text))
            found[number] = spans
    return found


def without_bar_lines(lines: list[MusicLine]) -> bool:
    """Whether no line of bars has a stroke."""
    return not any(STROKE.search(line.text) for line in lines)


def _is_numerals(text: str) -> bool:
    """Whether a line is bars of Roman numerals, and not the name of a part alone."""
    return lone_heading(text) is None and _labelled(text) is None and is_music_line(text)


def _is_metre(text: str) -> bool:
    try:
        read_metre(text)
    except TheoryError:
        return False
    return True


def _named(text: str) -> Heading | None:
    """A heading with bars behind it that names a part of a song."""
    heading = read_heading(text)
    if heading is None or not is_part(heading.name) or not is_music_line(heading.rest):
        return None
    return heading


def _labelled(text: str) -> Heading | None:
    """A part's name in front of its bars without any sign: ``V1 1 4 5 1``, ``Turnaround 2- 5``."""
    match = LABEL.match(text)
    if not match:
        return None
    name, number = match[1].rstrip(":.)-–"), match[2]
    bare = name.rstrip("0123456789")
    rest, start = text[match.end() :], match.end()
    if is_musical(f"{match[1]}{number or ''}") and not ROMAN_LABEL.match(match[1]):
        return None
    known = is_part(name) or bare.lower() in LABELS
    if not known or not is_music_line(rest) or ROMANS.search(rest):
        return None
    if number is not None and _counts_as_bar(rest):
        rest, start, number = text[match.start(2) :], match.start(2), None
    shown = f"{name} {number}" if number else name
    column = match.start(1) + 1
    return Heading(shown, column, max(1, len(shown)), 1, column, rest.strip(), start + 1, sure=True)


def _counts_as_bar(rest: str) -> bool:
    """Whether a number before a line is its first bar: with it, the line has a whole number of phrases."""
    bars = len(rest.split("|")) if "|" in rest else len(rest.split())
    return (bars + 1) % PHRASE == 0 and "|" not in rest
