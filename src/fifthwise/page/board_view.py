"""What of a fingerboard is to be drawn, and how."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fifthwise.strings import Instrument, Level
from fifthwise.theory import Key, NumberChord, Numbering

if TYPE_CHECKING:  # the search for fingers brings numpy, a picture does not need it
    from fifthwise.strings.fingering import Fingering

__all__ = ["BoardSubject", "BoardView"]

# The highest stop that each level sees: a fifth, where the next string begins; an octave; more.
STOPS: dict[Level, int] = {"first": 7, "half": 7, "third": 12, "all": 19}
ABOVE_HAND = 6


@dataclass(frozen=True, slots=True)
class BoardSubject:
    """What is drawn: an instrument in a key, counted as the song counts."""

    instrument: Instrument
    key: Key
    numbering: Numbering = Numbering()  # noqa: RUF009 - frozen


@dataclass(frozen=True, slots=True)
class BoardView:
    """How a fingerboard is drawn.

    Attributes
    ----------
    chord : NumberChord or None
        Whose notes stand out; without one the key's home does.
    level : Level
        How far up is shown, and how far anchors may go.
    centre : int or None
        The hand whose fingers stand at the side; without one a hand at home.
    stops : int or None
        The highest stop; without it what the level sees.
    anchors : bool
        Whether the ways from 1 to 5, 4 and 6- are drawn, and nothing else but those degrees.
    path : Fingering or None
        A line with its fingers, drawn in place of the whole scale.
    harmonics : bool
        Whether natural harmonics that sound a note shown are drawn as well.
    mm : bool
        Whether each semitone's distance from the nut is told.
    horizontal : bool
        Whether the nut is at the left and the lowest string below; otherwise the nut is on top.
    title, legend : bool
        Whether a heading and the key to the signs go with it.
    """

    chord: NumberChord | None = None
    level: Level = "first"
    centre: int | None = None
    stops: int | None = None
    anchors: bool = False
    path: "Fingering | None" = None
    harmonics: bool = False
    mm: bool = False
    horizontal: bool = False
    title: bool = True
    legend: bool = True

    def hand(self, instrument: Instrument) -> int:
        """The centre of the hand whose fingers are told: the one asked for, or first position."""
        return max(instrument.frame.home) if self.centre is None else self.centre

    def highest(self, instrument: Instrument) -> int:
        """The highest stop that is drawn."""
        if self.stops is not None:
            return min(self.stops, instrument.highest)
        above = 0 if self.centre is None else self.centre + ABOVE_HAND
        played = () if self.path is None else (s.stop for note in self.path.notes for s in note.stops)
        return min(max(STOPS[self.level], above, *played), instrument.highest)
