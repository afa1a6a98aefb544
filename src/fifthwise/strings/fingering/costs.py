"""What makes a fingering dear: one table of weights.

Costs have no unit; only their proportions matter. The form of the model follows Sayegh, Computer Music
Journal 13(3), 1989 (from memory); the values are ours, to begin with, and tuned on no held-out music.
"""

from dataclasses import dataclass

__all__ = ["COSTS", "FOURTH_POSITION", "LONG_S", "SHORT_S", "Costs"]

FOURTH_POSITION = 7  # the hand's centre in it
# A note at least so long wants vibrato; one shorter leaves no time for a shift. Seconds; ours.
LONG_S, SHORT_S = 0.75, 0.2


@dataclass(frozen=True, slots=True)
class Costs:
    """The weights of the search.

    Attributes
    ----------
    shift : float
        Each shift of the hand, whatever its length.
    distance : float
        Each hundredth of the string's length that the hand shifts (0.03 a millimetre on a violin).
    quiet : float
        Taken off a shift that is not heard, through an open string or in a rest; its distance counts half.
    slur_shift : float
        Added to a shift under a slur.
    short_shift : float
        Added to a shift that leaves a note shorter than ``SHORT_S``.
    beat_shift : float
        Taken off a shift to a note on the beat or at the start of a phrase.
    same_finger : float
        A finger goes to another place on its string; nothing where that is a semitone.
    creep : float
        A finger goes a semitone on while the hand stays.
    slide : float
        Taken off a shift of a semitone with the same finger.
    substitute : float
        Another finger takes a finger's place while the hand stays. It must be dear, but some double stops in
        a row cannot do without.
    crossing, skip, slur_crossing : float
        Each string that the bow crosses; once where it leaves one out; each string crossed under a slur.
    hop, fifth : float
        A finger hops to a neighbouring string at another place; at the same place (a fifth).
    fourth, long_fourth : float
        The fourth finger; added on a long note.
    long_open : float
        An open string on a long note, which cannot have vibrato.
    height : float
        Each semitone that the hand lies above first position.
    high : float
        Added for each semitone that it lies above fourth position, where the body is in its way.
    away : float
        A hand away from home, first position, so that flat keys do not drift to half position.
    spelling : float
        Another finger than the note's letter gives in first position.
    barre : float
        One finger across two strings.
    harmonic : float
        A natural harmonic in place of a stopped note.
    motion : float
        Each semitone that a voice moves, where the search may choose among notes.
    change, repeat : float
        Each voice that moves at all; each that stays.
    """

    shift: float = 2.0
    distance: float = 0.1
    quiet: float = 1.0
    slur_shift: float = 1.0
    short_shift: float = 1.0
    beat_shift: float = 0.3
    same_finger: float = 0.5
    creep: float = 0.4
    slide: float = 0.8
    substitute: float = 3.0
    crossing: float = 0.5
    skip: float = 2.0
    slur_crossing: float = 0.3
    hop: float = 1.2
    fifth: float = 0.2
    fourth: float = 0.3
    long_fourth: float = 0.4
    long_open: float = 0.8
    height: float = 0.08
    high: float = 0.12
    away: float = 0.2
    spelling: float = 0.4
    barre: float = 0.2
    harmonic: float = 0.6
    motion: float = 0.0
    change: float = 0.0
    repeat: float = 0.0


COSTS = Costs()
