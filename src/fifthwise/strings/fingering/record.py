"""A fingering as plain values, ready for JSON."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from fifthwise.strings.fingering.result import FingeredNote, Fingering, Shift, Stop
from fifthwise.strings.frame import THUMB
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.naming import finger_name, position_name, string_name

__all__ = ["fingering_record", "pin_text"]

PLACES = 4  # decimals of times
MARK = 3  # decimals of costs


def fingering_record(fingering: Fingering, instrument: Instrument) -> dict[str, Any]:
    """Write a fingering as text, numbers, lists and nested dicts.

    Returns
    -------
    dict
        ``notes``, one entry a pitch, so that the two of a double stop share ``at`` (quarters from the start):
        ``degree`` (``None`` where no key is known), ``pitch``, ``string``, ``stop`` (semitones), ``finger``
        (0 open, -1 the thumb), its ``name``, the ``pin`` that would bind it, and the hand's ``position``;
        ``cost``; ``shifts``, each with the ``at`` of the note that it reaches, ``from``, ``to`` and
        ``reason``. Times are rounded to four places, the cost to three.
    """
    return {
        "notes": [entry for note in fingering.notes for entry in _entries(note, instrument)],
        "cost": round(fingering.cost, MARK),
        "shifts": [_shift(shift, fingering) for shift in fingering.shifts],
    }


def pin_text(stop: Stop, instrument: Instrument) -> str:
    """String and finger as a player writes them: ``A2``, ``D0`` open, ``GT`` the thumb."""
    finger = "T" if stop.finger == THUMB else str(stop.finger)
    return f"{string_name(instrument, stop.string)}{finger}"


def _entries(note: FingeredNote, instrument: Instrument) -> Iterator[dict[str, Any]]:
    line_note = note.note
    degrees = line_note.degrees or (None,) * len(line_note.pitches)
    for degree, pitch, stop in zip(degrees, line_note.pitches, note.stops, strict=True):
        yield {
            "at": _number(line_note.starts_at),
            "length": _number(line_note.length),
            "degree": None if degree is None else str(degree),
            "pitch": str(pitch),
            "string": string_name(instrument, stop.string),
            "stop": stop.stop,
            "finger": stop.finger,
            "name": finger_name(instrument.frame, stop.finger, stop.stop - note.centre),
            "pin": pin_text(stop, instrument),
            "harmonic": stop.harmonic,
            "position": position_name(note.centre),
        }


def _shift(shift: Shift, fingering: Fingering) -> dict[str, Any]:
    return {
        "at": _number(fingering.notes[shift.note].note.starts_at),
        "from": position_name(shift.start),
        "to": position_name(shift.end),
        "reason": shift.reason,
    }


def _number(quarters: Fraction) -> int | float:
    return int(quarters) if quarters.denominator == 1 else round(float(quarters), PLACES)
