"""A bar's tune as degrees at their beats."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from fifthwise.chart import Bar, TuneNote, TunePitch
from fifthwise.page.layout_tune import SheetNote, TuneFigure
from fifthwise.page.text_signs import printed

__all__ = ["bar_notes"]

SLIDES: dict[str, Literal["", "up", "down"]] = {"": "", "/": "up", "\\": "down"}
DIGITS = "1234567"


def bar_notes(bar: Bar) -> tuple[SheetNote, ...]:
    """The tune over a bar; nothing where none is written."""
    return tuple(_notes(bar)) if bar.tune else ()


def _notes(bar: Bar) -> Iterator[SheetNote]:
    at, beat = Fraction(0), bar.metre.beat
    for note in bar.tune or ():
        yield _note(note, at, beat)
        at += note.length


def _note(note: TuneNote, at: Fraction, beat: Fraction) -> SheetNote:
    return SheetNote(
        note.kind,
        at,
        note.length,
        tuple(map(_figure, note.pitches)),
        tuple(map(_figure, note.grace)),
        SLIDES[note.slide],
        note.slur,
        int(at / beat),
        _divided(note.length / beat),
        note.length > beat,
    )


def _figure(pitch: TunePitch) -> TuneFigure:
    written = printed(pitch.degree)
    return TuneFigure(written.rstrip(DIGITS), written[-1], pitch.octave)


def _divided(part: Fraction) -> int:
    """Lines under a note that lasts ``part`` of a beat."""
    if part >= 1:
        return 0
    return 1 if part > Fraction(1, 4) else 2
