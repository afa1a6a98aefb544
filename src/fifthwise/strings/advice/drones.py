"""Open strings as drones: what rings over each chord, and the string that may ring on.

No note belongs to 1, 4 and 5 at once, so a drone that rings through all three makes a colour somewhere: the 1
over the 5 is its sus4, the 5 over the 4 its 9.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from fifthwise.strings.advice.sounding import SoundingChord
from fifthwise.strings.colours import OpenColour, open_colours
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.naming import string_name
from fifthwise.theory import SpelledPitch

__all__ = ["Colour", "Drone", "Ringing", "best_drones", "ringing_strings"]

# Colours that bite: a half step from a tone of the chord, or its tritone. Ours, no source.
ROUGH = frozenset({"b9", "#9", "b6", "7", "b5", "#11"})
BESIDE_3 = frozenset({3, 5})  # semitones above the root: a b3 or a 4, against which a 3 bites
MOST_TOLD = 3


@dataclass(frozen=True, slots=True)
class Ringing:
    """The open strings over one chord, lowest first.

    Attributes
    ----------
    words : str
        ``G rings as the root, D as the 5``.
    """

    chord: SoundingChord
    strings: tuple[OpenColour, ...]
    words: str

    @property
    def inside(self) -> tuple[OpenColour, ...]:
        """Those that are in the chord."""
        return tuple(colour for colour in self.strings if colour.in_chord)


@dataclass(frozen=True, slots=True)
class Colour:
    """What a string is over one chord.

    Attributes
    ----------
    chord : str
        As the song writes it.
    name : str
        ``root``, ``5``, ``sus4``; ``bass`` where it is the note under the slash alone.
    """

    chord: str
    name: str
    in_chord: bool


@dataclass(frozen=True, slots=True)
class Drone:
    """An open string held through a part of a song.

    Attributes
    ----------
    string : int
        Counted from the lowest, which is 0.
    inside, rough : Fraction
        The share of the time in which it is a tone of the chord, in which it bites.
    colours : tuple of Colour
        Over each different chord, the longest first.
    words : str
        ``G: in 1 and 4, sus4 over 5``.
    """

    string: int
    pitch: SpelledPitch
    inside: Fraction
    rough: Fraction
    colours: tuple[Colour, ...]
    words: str


def ringing_strings(chords: Sequence[SoundingChord], instrument: Instrument) -> tuple[Ringing, ...]:
    """Tell what every open string is over each chord."""
    return tuple(_ringing(chord, instrument) for chord in chords)


def best_drones(chords: Sequence[SoundingChord], instrument: Instrument) -> tuple[Drone, ...]:
    """Rank the open strings as one drone through these chords; none where no chord sounds.

    First what is in the chord for most of the time; of two, what bites less, then the lower one.
    """
    total = sum((chord.length for chord in chords), Fraction(0))
    if not total:
        return ()
    told = ringing_strings(chords, instrument)
    drones = [_drone(string, told, total, instrument) for string in range(len(instrument.strings))]
    return tuple(sorted(drones, key=lambda drone: (-drone.inside, drone.rough, drone.string)))


def _ringing(chord: SoundingChord, instrument: Instrument) -> Ringing:
    bass = chord.letters.bass
    strings = tuple(
        replace(colour, name="bass", in_chord=True)
        if bass is not None and not colour.in_chord and colour.pitch.name.pitch_class == bass.pitch_class
        else colour
        for colour in open_colours(instrument, chord.letters)
    )
    inside = [
        f"{string_name(instrument, each.string)} {'rings ' * (not place)}as the {each.name}"
        for place, each in enumerate(each for each in strings if each.in_chord)
    ]
    return Ringing(chord, strings, ", ".join(inside) or "No open string is in the chord")


def _drone(string: int, told: tuple[Ringing, ...], total: Fraction, instrument: Instrument) -> Drone:
    times: dict[Colour, Fraction] = {}
    for each in told:
        own = each.strings[string]
        colour = Colour(each.chord.text, own.name, own.in_chord)
        times[colour] = times.get(colour, Fraction(0)) + each.chord.length
    colours = tuple(sorted(times, key=lambda colour: -times[colour]))
    inside = sum((times[colour] for colour in colours if colour.in_chord), Fraction(0))
    rough = sum((each.chord.length for each in told if _bites(each.strings[string], each.chord)), Fraction(0))
    words = f"{string_name(instrument, string)}: {_words(colours)}"
    return Drone(string, instrument.strings[string], inside / total, rough / total, colours, words)


def _bites(colour: OpenColour, over: SoundingChord) -> bool:
    beside = colour.name == "3" and any(tone.semitones in BESIDE_3 for tone in over.chord.quality.tones)
    return not colour.in_chord and (colour.name in ROUGH or beside)


def _words(colours: tuple[Colour, ...]) -> str:
    inside = [colour.chord for colour in colours if colour.in_chord]
    outside = [f"{colour.name} over {colour.chord}" for colour in colours if not colour.in_chord]
    parts = [f"in {_listed(inside)}" if inside else "in no chord"]
    return ", ".join([*parts, _listed(outside)] if outside else parts)


def _listed(items: list[str]) -> str:
    if len(items) > MOST_TOLD:
        items = [*items[:MOST_TOLD], f"{len(items) - MOST_TOLD} more"]
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} and {items[-1]}"
