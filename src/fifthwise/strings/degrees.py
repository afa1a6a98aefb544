"""Where the degrees of a key or a chord are: string, stop, distance, and the finger that takes them there."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from fifthwise.strings.frame import Level
from fifthwise.strings.hand import HeldFinger, fingers_at, nearest_hand
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.naming import position_name
from fifthwise.strings.place import Place, stop_mm
from fifthwise.theory import Degree, NoteName, SpelledPitch, note_of

__all__ = ["DegreePlace", "degree_places"]


@dataclass(frozen=True, slots=True)
class DegreePlace:
    """A degree at one of its places.

    Attributes
    ----------
    mm : float
        From the nut, on a string of the instrument's length.
    degree : Degree
        Counted from the 1.
    pitch : SpelledPitch
        As the key spells it.
    fingers : tuple of HeldFinger
        The most natural first; empty where the hand does not reach.
    """

    place: Place
    mm: float
    degree: Degree
    pitch: SpelledPitch
    fingers: tuple[HeldFinger, ...]

    @property
    def finger(self) -> HeldFinger | None:
        """The finger that is most natural there."""
        return self.fingers[0] if self.fingers else None

    @property
    def position(self) -> str:
        """The position of the hand that takes it: ``first``, ``high third``; empty where none does."""
        return position_name(self.fingers[0].centre) if self.fingers else ""


def degree_places(
    instrument: Instrument,
    degrees: Iterable[Degree],
    one: NoteName,
    *,
    centre: int | None = None,
    level: Level = "all",
    highest: int | None = None,
) -> tuple[DegreePlace, ...]:
    """Every place of some degrees on an instrument, string by string from the lowest, nut to bridge.

    Parameters
    ----------
    degrees : iterable of Degree
        A key's are ``numbering.scale(key)``; a chord's are ``chord_degrees(chord)``.
    one : NoteName
        The note that is called 1: ``numbering.one(key)``.
    centre : int, optional
        The hand whose fingers are told; without it each place has the hand of ``level`` that is nearest home.
    highest : int, optional
        The highest stop in semitones; without it the instrument's.
    """
    top = instrument.highest if highest is None else min(highest, instrument.highest)
    wanted = tuple(dict.fromkeys(degrees))
    found = []
    for string in range(len(instrument.strings)):
        for degree in wanted:
            for place, pitch in _places(instrument, string, note_of(degree, one), top):
                fingers = _fingers(instrument, place, pitch, centre, level)
                mm = stop_mm(instrument.length_mm, place.stop)
                found.append(DegreePlace(place, mm, degree, pitch, fingers))
    return tuple(sorted(found, key=lambda each: (each.place, each.degree.step)))


def _places(
    instrument: Instrument, string: int, note: NoteName, top: int
) -> Iterator[tuple[Place, SpelledPitch]]:
    """A note in every octave that a string has."""
    own = instrument.strings[string]
    octave = own.octave - 1  # Cb and B# are written in the octave beside the one in which they sound
    while True:
        pitch = SpelledPitch(note.fifths, octave)
        stop = pitch.midi - own.midi
        if stop > top:
            return
        if stop >= 0:
            yield Place(string, stop), pitch
        octave += 1


def _fingers(
    instrument: Instrument, place: Place, pitch: SpelledPitch, centre: int | None, level: Level
) -> tuple[HeldFinger, ...]:
    hand = nearest_hand(instrument, place, level) if centre is None else centre
    return () if hand is None else fingers_at(instrument, place, pitch, hand)
