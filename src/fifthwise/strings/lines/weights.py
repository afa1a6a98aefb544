"""What makes a line over a chart good: tables of weights.

They stand beside the costs of the fingers, in the same unit, so that one search weighs both. All are ours,
starting values after common practice: 3 and 7 tell a chord, the root may be left to the bass, a bare fifth
tells little, a doubled third is coarse (no single source).
"""

from dataclasses import dataclass, replace

from fifthwise.strings.fingering import COSTS

__all__ = [
    "BASS",
    "BASS_COSTS",
    "COMP",
    "COMP_COSTS",
    "GUIDE",
    "GUIDE_COSTS",
    "HARMONY",
    "HARMONY_COSTS",
    "PAD",
    "SECTION",
    "BassWeights",
    "CompWeights",
    "HarmonyWeights",
    "SectionWeights",
    "ToneWeights",
]


@dataclass(frozen=True, slots=True)
class ToneWeights:
    """What a single tone over a chord costs, by its role; ``altered`` stands for an altered fifth."""

    root: float
    third: float
    fifth: float
    seventh: float
    colour: float
    altered: float


@dataclass(frozen=True, slots=True)
class CompWeights:
    """What two tones over a chord cost.

    Attributes
    ----------
    no_third, no_seventh, no_colour : float
        The chord has a third (or what is suspended for it), a seventh, an altered fifth or an added tone,
        and the pair does not.
    root, fifth : float
        The pair spends a tone on the root, on a perfect fifth.
    doubled, doubled_third : float
        Both are one tone; added where it is the third.
    bare_fifth : float
        Root below, perfect fifth above.
    second : float
        They lie a second apart.
    muddy : float
        They lie closer than a fifth, the lower one below C3.
    in_voice : float
        Each tone that lies where the singer sings most.
    high : float
        Each semitone of a tone above the highest open string: a comp lies under the voice.
    """

    no_third: float = 1.0
    no_seventh: float = 0.6
    no_colour: float = 0.4
    root: float = 0.1
    fifth: float = 0.2
    doubled: float = 1.5
    doubled_third: float = 1.5
    bare_fifth: float = 0.6
    second: float = 0.8
    muddy: float = 0.8
    in_voice: float = 0.8
    high: float = 0.05


@dataclass(frozen=True, slots=True)
class BassWeights:
    """What a bass note costs that is not the change itself.

    Attributes
    ----------
    fifth, root, third, seventh, colour : float
        Tones of the chord while it lasts.
    half_below, scale_step, half_above, fifth_of_next, no_approach : float
        The last note before another bass: a semitone below it, a step of the scale beside it, a semitone
        above it, its fifth; anything else of the chord, added to the tone's own.
    height : float
        Each semitone above the lowest string.
    """

    fifth: float = 0.0
    root: float = 1.2
    third: float = 0.3
    seventh: float = 0.9
    colour: float = 1.2
    half_below: float = 0.2
    scale_step: float = 0.2
    half_above: float = 0.6
    fifth_of_next: float = 0.3
    no_approach: float = 0.5
    height: float = 0.03


@dataclass(frozen=True, slots=True)
class HarmonyWeights:
    """What a second voice costs against a tune note.

    Attributes
    ----------
    third, sixth, fifth, fourth : float
        The interval to the tune.
    tritone : float
        Added where it is one.
    off_chord_strong, off_chord_weak : float
        It is no tone of the chord, on a strong beat and elsewhere.
    alone : float
        The tune is left alone, where no two notes can be stopped.
    """

    third: float = 0.0
    sixth: float = 0.1
    fifth: float = 0.8
    fourth: float = 0.8
    tritone: float = 0.6
    off_chord_strong: float = 2.0
    off_chord_weak: float = 0.3
    alone: float = 4.0


@dataclass(frozen=True, slots=True)
class SectionWeights:
    """What a chord costs that several instruments voice together.

    Attributes
    ----------
    motion : float
        Each semitone that a voice moves.
    no_root, no_third, no_fifth, no_seventh, no_colour : float
        A tone of the chord that nobody plays; ``no_colour`` is an altered fifth or an added tone.
    doubled_third, unison : float
        The third twice; two players on one pitch.
    top_dull : float
        The top voice has neither third nor seventh, where it is led by guide tones.
    wide : float
        Each semitone beyond a fifth between neighbouring upper voices.
    muddy : float
        Two voices closer than a fifth, the lower one below C3.
    high : float
        Each semitone of a voice above first position on its highest string.
    height : float
        Each semitone of a bass above its lowest string.
    """

    motion: float = 0.25
    no_root: float = 0.8
    no_third: float = 3.0
    no_fifth: float = 0.3
    no_seventh: float = 1.5
    no_colour: float = 0.5
    doubled_third: float = 0.8
    unison: float = 1.0
    top_dull: float = 0.6
    wide: float = 0.05
    muddy: float = 0.5
    high: float = 0.1
    height: float = 0.05


COMP = CompWeights()
# A chord is short or let ring, so an open string is welcome.
COMP_COSTS = replace(COSTS, motion=0.25, long_open=0.1, long_fourth=0.1)

# Another tone than the 3 or the 7 only where these would leap an octave.
GUIDE = ToneWeights(root=6.0, third=0.0, fifth=6.5, seventh=0.0, colour=7.0, altered=3.0)
GUIDE_COSTS = replace(COSTS, motion=0.5)

PAD = ToneWeights(root=0.3, third=0.0, fifth=0.2, seventh=0.1, colour=0.3, altered=0.1)

BASS = BassWeights()
# A bass is plucked or has short bows, and its roots and fifths lie strings apart.
BASS_COSTS = replace(COSTS, motion=0.08, repeat=2.5, long_open=0.1, crossing=0.2, skip=0.5)

HARMONY = HarmonyWeights()
HARMONY_COSTS = replace(COSTS, motion=0.1)

SECTION = SectionWeights()
