"""Tunes and their finger pins written as text."""

from collections.abc import Sequence

from fifthwise.chart.beats import Timed, beat_texts, token_lengths
from fifthwise.chart.model import Bar, TuneNote, TunePitch
from fifthwise.theory.numbering import raised

__all__ = ["finger_line", "has_fingers", "tune_line", "tune_note_text", "tune_pitch_text"]


def tune_pitch_text(pitch: TunePitch, *, lowers: bool = False) -> str:
    """Write a degree of a tune with its octave marks."""
    degree = raised(pitch.degree) if lowers else pitch.degree
    return f"{degree}{chr(39) * pitch.octave if pitch.octave > 0 else ',' * -pitch.octave}"


def tune_note_text(note: TuneNote, *, lowers: bool = False) -> str:
    """Write one note of a tune, without its length."""
    if note.kind != "note":
        return {"rest": "0", "hold": "-", "chop": "x"}[note.kind]
    grace = " ".join(tune_pitch_text(pitch, lowers=lowers) for pitch in note.grace)
    pitches = "&".join(tune_pitch_text(pitch, lowers=lowers) for pitch in note.pitches)
    return f"{'{' + grace + '}' if grace else ''}{note.slide}{pitches}{'_' if note.slur else ''}"


def tune_line(bars: Sequence[Bar], lowers: Sequence[bool]) -> str:
    """The ``tune:`` line of a line of bars."""
    return (
        f"tune: {' | '.join(tune_bar_text(bar, lowers=low) for bar, low in zip(bars, lowers, strict=True))}"
    )


def tune_bar_text(bar: Bar, *, lowers: bool = False) -> str:
    """One bar of tune."""
    return _bar(bar, [tune_note_text(note, lowers=lowers) for note in bar.tune or ()], "-")


def has_fingers(bar: Bar) -> bool:
    """Whether any finger is pinned."""
    return any(note.fingers for note in bar.tune or ())


def finger_line(bars: Sequence[Bar], lowers: Sequence[bool]) -> str:
    """The ``fingers:`` line, token for token under the ``tune:`` line."""
    pins = [_bar(bar, ["&".join(note.fingers) or "." for note in bar.tune or ()], ".") for bar in bars]
    return f"fingers: {' | '.join(pins)}"


def _bar(bar: Bar, texts: list[str], more: str) -> str:
    notes = bar.tune or ()
    if len(notes) == 1 and notes[0].kind in ("rest", "hold"):
        return texts[0]
    items = [Timed(text, note.length, note.kind == "hold") for text, note in zip(texts, notes, strict=True)]
    words = beat_texts(items, token_lengths(bar), more=more, first=more)
    return " ".join(word for _, word in words)
