"""What is wrong with a fingering, told from first principles and apart from the search that makes them.

A stop sounds its open string and so many semitones; a harmonic sounds as an ideal string does. The hand lies
where the level lets it, in a shape that the frame has there; its fingers reach no further than that shape.
"""

from collections.abc import Iterator
from itertools import combinations, pairwise, product
from math import gcd, isfinite, log2

from fifthwise.strings.fingering.pins import read_pin
from fifthwise.strings.fingering.result import FingeredNote, Fingering, Stop
from fifthwise.strings.frame import OPEN, THUMB, HandShape, Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.naming import position_name, string_name
from fifthwise.theory import SpelledPitch

__all__ = ["fingering_faults"]

SEMITONES = 12
SPANS, TENTH = {1: 3, 2: 4}, 9


def fingering_faults(fingering: Fingering, instrument: Instrument, level: Level) -> tuple[str, ...]:
    """Say everything for which a hand could not play a fingering as it stands.

    Parameters
    ----------
    level : str
        Where the hand may lie; one of ``LEVELS``.

    Returns
    -------
    tuple of str
        One fault each, with its note; empty where the fingering is sound.
    """
    return (
        *(
            f"note {number}: {fault}"
            for number, note in enumerate(fingering.notes, 1)
            for fault in _note_faults(note, instrument, level)
        ),
        *(
            f"note {number}: {fault}"
            for number, (before, after) in enumerate(pairwise(fingering.notes), 2)
            for fault in _order_faults(before, after, instrument)
        ),
        *_shift_faults(fingering),
        *([] if isfinite(fingering.cost) else [f"the cost is {fingering.cost}"]),
    )


def _note_faults(note: FingeredNote, instrument: Instrument, level: Level) -> Iterator[str]:
    if len(note.stops) != len(note.note.pitches):
        yield f"{len(note.stops)} stops for {len(note.note.pitches)} pitches"
        return
    if any(not 0 <= stop.string < len(instrument.strings) for stop in note.stops):
        yield f"a string that a {instrument.label.lower()} does not have"
        return
    for stop, pitch in zip(note.stops, note.note.pitches, strict=True):
        yield from _stop_faults(stop, pitch, instrument)
    yield from _hand_faults(note, instrument, level)
    for one, other in combinations(note.stops, 2):
        yield from _together_faults(one, other)
    yield from _pin_faults(note, instrument)


def _stop_faults(stop: Stop, pitch: SpelledPitch, instrument: Instrument) -> Iterator[str]:
    """Whether one place exists and sounds its pitch."""
    own = instrument.strings[stop.string].midi
    named = f"stop {stop.stop} on the {string_name(instrument, stop.string)} string"
    if not 0 <= stop.stop <= instrument.highest:
        yield f"{named} is off the fingerboard"
    if (stop.finger == OPEN) != (stop.stop == 0):
        yield f"{named} with finger {stop.finger}: an open string has no finger, a stop has one"
    if stop.harmonic == 0:
        sounds = stop.stop
    elif stop.stop in _touches(stop.harmonic):
        sounds = round(SEMITONES * log2(stop.harmonic))
    else:
        yield f"partial {stop.harmonic} is not touched at {named}"
        return
    if own + sounds != pitch.midi:
        yield f"{named} does not sound {pitch}"


def _touches(partial: int) -> set[int]:
    """The nearest semitones to where the string is touched for a partial alone: at k/n of its length."""
    shares = (share / partial for share in range(1, partial) if gcd(share, partial) == 1)
    return {round(-SEMITONES * log2(1 - share)) for share in shares}


def _hand_faults(note: FingeredNote, instrument: Instrument, level: Level) -> Iterator[str]:
    """Whether the hand may lie there so, and its fingers reach."""
    if note.centre not in instrument.frame.centres(level):
        yield f"{position_name(note.centre)} position is not in level '{level}'"
    shape = _shape(note, instrument)
    if shape is None:
        yield f"no hand is '{note.shape}' in {position_name(note.centre)} position"
        return
    if shape.double and len(note.stops) == 1:
        yield f"a hand is '{note.shape}' for double stops alone"
    reached = {(reach.finger, note.centre + reach.offset) for reach in shape.reaches}
    for stop in note.stops:
        if stop.finger != OPEN and (stop.finger, stop.stop) not in reached:
            finger = "the thumb" if stop.finger == THUMB else f"finger {stop.finger}"
            yield f"{finger} does not reach stop {stop.stop} from {position_name(note.centre)} position"


def _shape(note: FingeredNote, instrument: Instrument) -> HandShape | None:
    there = (shape for shape in instrument.frame.shapes(note.centre) if shape.name == note.shape)
    return next(there, None)


def _together_faults(one: Stop, other: Stop) -> Iterator[str]:
    """Whether two stops sound at once under one hand."""
    if abs(one.string - other.string) != 1:
        yield "two notes at once lie on strings side by side"
    if OPEN in (one.finger, other.finger):
        return
    if one.stop == other.stop and one.finger != other.finger:
        yield "two fingers at one place across the strings"
    if one.stop != other.stop and one.finger == other.finger:
        yield f"finger {one.finger} is in two places at once"
    if (one.stop - other.stop) * (one.finger - other.finger) < 0:
        yield "the higher finger lies nearer to the bridge"
    apart = abs(one.stop - other.stop)
    if one.finger != other.finger and apart > SPANS.get(abs(one.finger - other.finger), TENTH):
        yield f"fingers {one.finger} and {other.finger} do not lie {apart} semitones apart"


def _pin_faults(note: FingeredNote, instrument: Instrument) -> Iterator[str]:
    for text, stop in zip(note.note.pins, note.stops, strict=False):
        pin = read_pin(text, instrument, "pin")
        if pin.strings is not None and stop.string not in pin.strings:
            yield f"pinned {text}, played on the {string_name(instrument, stop.string)} string"
        if pin.finger not in (None, stop.finger):
            yield f"pinned {text}, played with finger {stop.finger}"


def _order_faults(before: FingeredNote, after: FingeredNote, instrument: Instrument) -> Iterator[str]:
    """Whether fingers keep their order along a string while the hand stays."""
    if before.centre != after.centre or _by_thumb(before, instrument) != _by_thumb(after, instrument):
        return
    for old, new in product(before.stops, after.stops):
        if old.string != new.string or OPEN in (old.finger, new.finger):
            continue
        if (new.stop - old.stop) * (new.finger - old.finger) < 0:
            yield f"finger {new.finger} crosses finger {old.finger} while the hand stays"


def _by_thumb(note: FingeredNote, instrument: Instrument) -> bool:
    shape = _shape(note, instrument)
    return shape is not None and shape.by_thumb


def _shift_faults(fingering: Fingering) -> Iterator[str]:
    """Whether every change of the hand's place is listed, once and in order, and nothing else."""
    moved = [
        (at, before.centre, after.centre)
        for at, (before, after) in enumerate(pairwise(fingering.notes), 1)
        if before.centre != after.centre
    ]
    listed = [(shift.note, shift.start, shift.end) for shift in fingering.shifts]
    if moved != listed:
        yield f"shifts listed {listed}, made {moved}"
    yield from (
        f"note {shift.note + 1}: a shift without a reason" for shift in fingering.shifts if not shift.reason
    )
