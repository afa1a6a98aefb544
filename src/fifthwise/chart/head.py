"""The head of a chart: ``field: text`` lines between two lines of three dashes."""

import difflib
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

from fifthwise.chart.model import TunePitch
from fifthwise.chart.source import FaultList
from fifthwise.chart.tune_text import read_tune_pitch
from fifthwise.theory import MINOR_WAYS, PLAIN_WAYS, Key, Metre, TheoryError, read_key, read_metre

__all__ = ["FIELDS", "Head", "read_head"]

FIELDS = (
    "title", "by", "key", "meter", "tempo", "feel", "form", "tags", "octave", "lowest", "highest", "minor",
    "plain",
)  # fmt: skip
SLOWEST, FASTEST = 20, 400
LONGEST_NAME = 200  # characters: it stands on one line of lists and pages
TEMPO = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,3}|/[1-9][0-9]{0,3})?\Z")
C_MAJOR = read_key("C")
RULE = "---"
REQUIRED = ("title", "key")


@dataclass
class Head:
    """The head's fields, read; a field at fault keeps its default."""

    title: str = ""
    key: Key = C_MAJOR
    metre: Metre = field(default_factory=lambda: Metre(4, 4))
    tempo: Fraction | None = None
    octave: int | None = None
    texts: dict[str, str] = field(default_factory=dict)
    places: dict[str, tuple[int, int]] = field(default_factory=dict)
    lowest: TunePitch | None = None
    highest: TunePitch | None = None


def read_head(lines: list[str], faults: FaultList) -> tuple[Head, int]:
    """Read the head.

    Returns
    -------
    Head
        What could be read.
    int
        Index of the first line after it.
    """
    start = next((i for i, line in enumerate(lines) if line.strip()), None)
    if start is None:
        faults.add(1, 1, 1, "the chart is empty", "Begin with a head: '---', 'title: …', 'key: …', '---'")
        return Head(), 0
    found = _find_head(lines, start)
    if lines[start].strip() != RULE:
        what, fix = "the chart does not begin with its head", f"Begin with a line '{RULE}'"
        faults.add(start + 1, 1, len(lines[start]), what, fix)
    if found is None:
        return Head(), start
    opened = lines[found].strip() == RULE
    first = found + opened
    end = next((i for i in range(first, len(lines)) if lines[i].strip() == RULE), None)
    if end is None:
        if opened:
            faults.add(found + 1, 1, len(RULE), "the head is not closed", f"End it with a line '{RULE}'")
        end = _guess_end(lines, first)
        return _fields(lines, first, end, faults), end
    return _fields(lines, first, end, faults), end + 1


def _find_head(lines: list[str], start: int) -> int | None:
    """The line where the head begins: a rule, or a field whose rule is missing."""
    if lines[start].strip() == RULE:
        return start
    for i in range(start, len(lines)):
        if lines[i].strip() == RULE and i + 1 < len(lines) and _is_field(lines[i + 1]):
            return i
        if _is_field(lines[i]):
            return i
    return None


def _guess_end(lines: list[str], first: int) -> int:
    """Where a head that is not closed stops looking like one."""
    for i in range(first, len(lines)):
        if lines[i].strip() and not _is_field(lines[i]):
            return i
    return len(lines)


def _is_field(line: str) -> bool:
    name, colon, _ = line.partition(":")
    return bool(colon) and name.strip().lower() in FIELDS


def _fields(lines: list[str], start: int, end: int, faults: FaultList) -> Head:
    head = Head()
    for i in range(start, end):
        if lines[i].strip() and not faults.full:
            _keep_field(lines[i], i + 1, head, faults)
    for name in REQUIRED:
        if name not in head.places:
            example = "title: Paper Lantern Road" if name == "title" else "key: Eb"
            faults.add(max(1, start), 1, 3, f"the head has no {name}", f"Add a line '{example}'")
    for name in READERS:
        if name in head.texts:
            _read_field(name, head, faults)
    head.title = head.texts.get("title", "")
    return head


def _keep_field(line: str, number: int, head: Head, faults: FaultList) -> None:
    name, colon, rest = line.partition(":")
    if not colon:
        faults.add(number, 1, len(line), "this line of the head is no field", "Write it as 'field: text'")
        return
    column = len(line) - len(line.lstrip()) + 1
    starts = len(name) + 2 + len(rest) - len(rest.lstrip())
    name, text = name.strip(), _unquoted(rest.strip())
    if name not in FIELDS:
        near = difflib.get_close_matches(name.lower(), FIELDS, n=1, cutoff=0.5)
        fix = f"Did you mean '{near[0]}'?" if near else f"Known fields are {', '.join(FIELDS)}"
        faults.add(number, column, len(name), f"unknown field '{name}'", fix, tuple(near))
    elif name in head.places:
        faults.add(number, column, len(name), f"the field '{name}' is given twice", "Keep one of them")
    elif not text:
        head.places[name] = (number, column)
        fix = "Write its text" if name in REQUIRED else "Write its text, or leave it out"
        faults.add(number, column, len(name), f"the field '{name}' is empty", fix)
    else:
        head.places[name] = (number, starts + rest.strip().index(text))
        head.texts[name] = text


def _unquoted(text: str) -> str:
    quoted = len(text) >= 2 and text[0] == text[-1] == '"'
    return text[1:-1].strip() if quoted else text


def _read_field(name: str, head: Head, faults: FaultList) -> None:
    text = head.texts[name]
    try:
        READERS[name](text, head)
    except (TheoryError, Refused) as fault:
        line, column = head.places[name]
        what, fix = (fault.what, fault.fix)
        faults.add(line, column, len(text), what, fix)


class Refused(Exception):
    def __init__(self, what: str, fix: str) -> None:
        super().__init__(what, fix)
        self.what, self.fix = what, fix


def _short(name: str) -> Callable[[str, Head], None]:
    def read(text: str, head: Head) -> None:
        if len(text) > LONGEST_NAME:
            head.texts[name] = text[:LONGEST_NAME]
            raise Refused(f"the field '{name}' has {len(text)} characters", f"Write at most {LONGEST_NAME}")

    return read


def _read_key(text: str, head: Head) -> None:
    head.key = read_key(text)


def _read_meter(text: str, head: Head) -> None:
    head.metre = read_metre(text)


def _read_tempo(text: str, head: Head) -> None:
    head.tempo = read_tempo(text)


def read_tempo(text: str) -> Fraction:
    """Read felt beats a minute."""
    # Anything that Fraction reads would let 1e99999999 through, which takes for ever.
    if not TEMPO.match(text):
        raise Refused(f"'{text}' is no tempo", "Write felt beats a minute, as in '96'")
    tempo = Fraction(text)
    if not SLOWEST <= tempo <= FASTEST:
        raise Refused(f"the tempo {text} is out of range", f"Write {SLOWEST} to {FASTEST}")
    return tempo


def _read_octave(text: str, head: Head) -> None:
    if not re.fullmatch(r"[0-8]", text):
        raise Refused(f"'{text}' is no octave", "Write 0 to 8; octave 4 begins at middle C")
    head.octave = int(text)


def _read_lowest(text: str, head: Head) -> None:
    head.lowest = _end_of_tune(text, head)


def _read_highest(text: str, head: Head) -> None:
    head.highest = _end_of_tune(text, head)
    if head.lowest and _height(head.lowest) > _height(head.highest):
        raise Refused(
            "the highest degree lies below the lowest", 'Swap them, or add octave marks as in "5\'"'
        )


def _end_of_tune(text: str, head: Head) -> TunePitch:
    lowers = head.key.is_minor and head.texts.get("minor") == "natural"
    pitch = read_tune_pitch(text, lowers=lowers)
    if pitch is None:
        raise Refused(f"'{text}' is no degree of a tune", 'Write it as in "5," or "3\'"')
    return pitch


def _height(pitch: TunePitch) -> int:
    return pitch.degree.semitones + 12 * pitch.octave


def _one_of(name: str, ways: tuple[str, ...]) -> Callable[[str, Head], None]:
    def read(text: str, head: Head) -> None:
        if text not in ways:
            near = difflib.get_close_matches(text, ways, n=1)
            fix = f"Did you mean '{near[0]}'?" if near else f"Write {', '.join(ways)}"
            del head.texts[name]
            raise Refused(f"'{text}' is no way of numbering ({name})", fix)

    return read


# In the order of reading: how the song counts comes first, since its lowest degree is counted so.
READERS: dict[str, Callable[[str, Head], None]] = {
    "title": _short("title"),
    "by": _short("by"),
    "minor": _one_of("minor", MINOR_WAYS),
    "plain": _one_of("plain", PLAIN_WAYS),
    "key": _read_key,
    "meter": _read_meter,
    "tempo": _read_tempo,
    "octave": _read_octave,
    "lowest": _read_lowest,
    "highest": _read_highest,
}
