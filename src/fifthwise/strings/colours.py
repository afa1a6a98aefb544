"""What the open strings are: over a chord, and in a key."""

from dataclasses import dataclass

from fifthwise.strings.instrument import Instrument
from fifthwise.theory import (
    Degree,
    Interval,
    Key,
    LetterChord,
    Numbering,
    SpelledPitch,
    interval_name,
    note_of,
)

__all__ = ["OpenColour", "OpenDegree", "open_colours", "open_degrees"]

# What a note that is no chord tone is called by its semitones above the root.
COLOURS = ("root", "b9", "9", "#9", "3", "sus4", "#11", "5", "b6", "6", "b7", "7")
MINOR_COLOURS = {5: "11", 6: "b5"}
PERFECT_FIFTH = 7
SEVENTHS = (10, 11)


@dataclass(frozen=True, slots=True)
class OpenColour:
    """An open string over a chord.

    Attributes
    ----------
    string : int
        Counted from the lowest, which is 0.
    name : str
        As players call it, counted from the chord's root: ``root``, ``b3``, ``5``, ``sus4``, ``9``.
    in_chord : bool
        Whether it is a chord tone.
    """

    string: int
    pitch: SpelledPitch
    name: str
    in_chord: bool


@dataclass(frozen=True, slots=True)
class OpenDegree:
    """An open string in a key; ``degree`` is None where the scale does not have it."""

    string: int
    pitch: SpelledPitch
    degree: Degree | None


def open_colours(instrument: Instrument, chord: LetterChord) -> tuple[OpenColour, ...]:
    """What each open string is over a chord, lowest first.

    A drone that rings through 1, 4 and 5 is a colour on one of them: the 1 over the 5 is its ``sus4``, the
    5 over the 4 its ``9``.
    """
    tones = {tone.semitones % 12: _tone_name(tone) for tone in chord.quality.tones}
    return tuple(
        _colour(string, pitch, (pitch.midi - chord.root.pitch_class) % 12, tones)
        for string, pitch in enumerate(instrument.strings)
    )


def _tone_name(tone: Interval) -> str:
    name = interval_name(tone)
    return {"1": "root", "4": "sus4"}.get(name, name)


def _colour(string: int, pitch: SpelledPitch, above: int, tones: dict[int, str]) -> OpenColour:
    if above in tones:
        return OpenColour(string, pitch, tones[above], in_chord=True)
    return OpenColour(string, pitch, _name(above, tones), in_chord=False)


def _name(above: int, tones: dict[int, str]) -> str:
    minor = 3 in tones and 4 not in tones
    if minor and above in MINOR_COLOURS:
        return MINOR_COLOURS[above]
    if above == 3 and 4 not in tones:
        return "b3"
    if above == 6 and PERFECT_FIFTH not in tones:
        return "b5"
    if above == 9 and any(seventh in tones for seventh in SEVENTHS):
        return "13"
    return COLOURS[above]


def open_degrees(
    instrument: Instrument,
    key: Key,
    numbering: Numbering = Numbering(),  # noqa: B008 - frozen
) -> tuple[OpenDegree, ...]:
    """What each open string is in a key, lowest first; the scale's spelling counts, so E is the 4 of Cb."""
    one = numbering.one(key)
    by_sound = {note_of(degree, one).pitch_class: degree for degree in numbering.scale(key)}
    return tuple(
        OpenDegree(string, pitch, by_sound.get(pitch.midi % 12))
        for string, pitch in enumerate(instrument.strings)
    )
