"""Why a note cannot be played, and the nearest way to play it."""

from collections.abc import Iterator
from dataclasses import replace

from fifthwise.strings.errors import Unplayable
from fifthwise.strings.fingering.layers import Layers
from fifthwise.strings.fingering.line import LineNote
from fifthwise.strings.fingering.neck import Neck, neck_of
from fifthwise.strings.frame import LEVELS, Level
from fifthwise.theory import Interval, SpelledPitch, transpose

__all__ = ["LEVEL_NAMES", "barred_fault", "no_hand_fault"]

LEVEL_NAMES: dict[Level, str] = {
    "first": "first position",
    "half": "half and first position",
    "third": "positions up to third",
    "all": "all positions",
}
OCTAVES = {1: "higher", -1: "lower"}


def no_hand_fault(neck: Neck, choices: tuple[LineNote, ...], where: str) -> Unplayable:
    """Say why no hand reaches any of the notes offered."""
    note = choices[0]
    if note.pins and _has_hand(neck, replace(note, pins=())):
        pinned = " and ".join(pin for pin in note.pins if pin != ".")
        return Unplayable(f"{_named(note)} cannot be played as pinned, {pinned}", where, "Free it with '.'")
    free = replace(note, pins=())
    return Unplayable(_why(neck, free), where, "; ".join(_ways(neck, free)) or "Take it out of the line")


def barred_fault(layers: Layers, places: tuple[tuple[LineNote, ...], ...]) -> Unplayable:
    """Say which note no hand goes on to, though it reaches each by itself."""
    totals = layers.hands(0).costs
    at = 0
    for at in range(1, len(layers)):
        totals = (totals[:, None] + layers.moves(at)).min(axis=0) + layers.hands(at).costs
        if not (totals < float("inf")).any():
            break
    what = f"no finger is left for {_named(places[at][0])} after the note before it"
    return Unplayable(what, f"note {at + 1}", "Free a pin beside it, or choose a wider level")


def _named(note: LineNote) -> str:
    return " with ".join(str(pitch) for pitch in note.pitches)


def _why(neck: Neck, note: LineNote) -> str:
    strings, label = neck.instrument.strings, neck.instrument.label.lower()
    low = min(strings, key=lambda string: string.midi)
    if below := [pitch for pitch in note.pitches if pitch.midi < low.midi]:
        return f"{below[0]} lies below the {label}'s lowest string, {low}"
    highest = max(string.midi for string in strings) + neck.instrument.highest
    if above := [pitch for pitch in note.pitches if pitch.midi > highest]:
        return f"{above[0]} lies above all that a {label} stops"
    if len(note.pitches) == 2 and all(_has_hand(neck, _alone(note, pitch)) for pitch in note.pitches):
        return f"{_named(note)} cannot be stopped together in {LEVEL_NAMES[neck.level]}"
    return f"{_named(note)} is out of reach in {LEVEL_NAMES[neck.level]}"


def _ways(neck: Neck, note: LineNote) -> Iterator[str]:
    """What would be playable, in words: a wider level, an octave, one note of two."""
    for level in LEVELS[LEVELS.index(neck.level) + 1 :]:
        if _has_hand(_wider(neck, level), note):
            yield f"Choose level '{level}' ({LEVEL_NAMES[level]})"
            break
    for octave, word in OCTAVES.items():
        moved = _moved(note, octave)
        if _has_hand(neck, moved):
            yield f"Play it an octave {word}, {_named(moved)}"
    alone = [pitch for pitch in note.pitches if _has_hand(neck, _alone(note, pitch))]
    if len(note.pitches) == 2 and alone:
        yield f"Play {alone[-1]} alone"


def _wider(neck: Neck, level: Level) -> Neck:
    return neck_of(neck.instrument, level, neck.costs, harmonics=neck.harmonics)


def _moved(note: LineNote, octaves: int) -> LineNote:
    return replace(note, pitches=tuple(transpose(pitch, Interval(0, octaves)) for pitch in note.pitches))


def _alone(note: LineNote, pitch: SpelledPitch) -> LineNote:
    return replace(note, pitches=(pitch,))


def _has_hand(neck: Neck, note: LineNote) -> bool:
    return bool(neck.hands[neck.number((note,), long=False, where="")].hands)
