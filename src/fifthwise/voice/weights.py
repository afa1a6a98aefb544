"""What each discomfort costs a singer: the one table, to be adjusted here or by passing another.

The values are our own starting values, to be tuned against what singers choose. Too high costs more
than too low, and outside the usable range costs so much more than outside comfort that no key is chosen
for its middle when its ends cannot be sung.
"""

from dataclasses import dataclass
from fractions import Fraction

__all__ = ["WEIGHTS", "Weights"]


@dataclass(frozen=True, slots=True)
class Weights:
    """What each discomfort costs; all are 0 or more.

    Attributes
    ----------
    below_usable, above_usable, below_comfort, above_comfort : float
        A semitone beyond the range, for the whole of the tune.
    turns : float
        The whole of the tune in notes of at least ``turn_beats`` in the singer's change-over.
    upper, lower : float
        Each semitone by which a reserve is smaller than ``reserve``.
    held : float
        How much more a note of at least ``held_beats`` weighs than its beats.
    """

    below_usable: float = 4.0
    above_usable: float = 6.0
    below_comfort: float = 0.6
    above_comfort: float = 1.0
    turns: float = 0.5
    turn_beats: int = 1
    upper: float = 0.5
    lower: float = 0.25
    reserve: int = 2
    held: Fraction = Fraction(3, 2)
    held_beats: int = 2


WEIGHTS = Weights()
