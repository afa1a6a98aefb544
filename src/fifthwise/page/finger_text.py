"""A fingered line as plain text: numbers, notes, and string with finger, each in its column."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from fifthwise.page.text_signs import printed, printed_prose
from fifthwise.strings import THUMB, Instrument, position_name, string_name

if TYPE_CHECKING:  # the search for fingers brings numpy, a text does not need it
    from fifthwise.strings.fingering import FingeredNote, Fingering, Stop

__all__ = ["finger_text"]

WIDE = 76
GAP = 2
LABELS = ("number", "note", "string", "finger", "hand")
LABEL = 8
AND = "&"


def finger_text(fingering: "Fingering", instrument: Instrument) -> str:
    """Write a fingering for a terminal.

    Numbers stand over notes, strings and fingers (0 open, T the thumb, o a harmonic); ``hand`` tells the
    position where it begins. After that come the shifts with their reasons.
    """
    columns = list(_columns(fingering.notes, instrument))
    rows = [line for part in _parts(columns) for line in (*_rows(part), "")]
    return "\n".join((*rows, *_shifts(fingering), ""))


def _columns(notes: "Sequence[FingeredNote]", instrument: Instrument) -> Iterator[tuple[str, ...]]:
    before = None
    for note in notes:
        written = note.note
        yield (
            AND.join(printed(str(degree)) for degree in written.degrees) or "?",
            AND.join(printed(str(pitch)) for pitch in written.pitches),
            AND.join(printed(string_name(instrument, stop.string)) for stop in note.stops),
            AND.join(_finger(stop) for stop in note.stops),
            position_name(note.centre) if note.centre != before else "",
        )
        before = note.centre


def _finger(stop: "Stop") -> str:
    """0 open, T the thumb; ``o`` marks a harmonic, as its circle does on a staff."""
    finger = "T" if stop.finger == THUMB else str(stop.finger)
    return f"{finger}o" if stop.harmonic else finger


def _parts(columns: list[tuple[str, ...]]) -> Iterator[list[tuple[str, ...]]]:
    """As many columns as a line holds."""
    part: list[tuple[str, ...]] = []
    used = LABEL
    for column in columns:
        wide = _width(column)
        if part and used + wide > WIDE:
            yield part
            part, used = [], LABEL
        part.append(column)
        used += wide
    if part:
        yield part


def _width(column: tuple[str, ...]) -> int:
    return max(map(len, column)) + GAP


def _rows(part: list[tuple[str, ...]]) -> Iterator[str]:
    for at, label in enumerate(LABELS):
        cells = "".join(column[at].ljust(_width(column)) for column in part)
        if cells.strip():
            yield f"{label.ljust(LABEL)}{cells}".rstrip()


def _shifts(fingering: "Fingering") -> Iterator[str]:
    for shift in fingering.shifts:
        way = f"{position_name(shift.start)} to {position_name(shift.end)}"
        yield f"note {shift.note + 1}, {way}: {printed_prose(shift.reason)}"
    if not fingering.shifts:
        yield "no shift"
    open_strings = sum(stop.finger == 0 for note in fingering.notes for stop in note.stops)
    fourths = sum(stop.finger == 4 for note in fingering.notes for stop in note.stops)
    yield f"cost {fingering.cost:.1f}, open strings {open_strings}, fourth finger {fourths}"
