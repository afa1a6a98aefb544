"""A tune as it stands under a bar: degrees at their beats."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

__all__ = ["SheetNote", "TuneFigure"]


@dataclass(frozen=True, slots=True)
class TuneFigure:
    """A degree of the tune: ``♭`` and ``3``, and octaves above (1, 2) or below (-1, -2) the unmarked one."""

    sign: str
    step: str
    octave: int = 0

    @property
    def text(self) -> str:
        """The degree in one plain piece: ``♭3'``, ``5,``."""
        return f"{self.sign}{self.step}{chr(39) * self.octave}{',' * -self.octave}"


@dataclass(frozen=True, slots=True)
class SheetNote:
    """One note, chop, rest or hold of the tune, or a further part of a divided beat that it fills.

    Attributes
    ----------
    shape : {'note', 'chop', 'rest', 'hold', 'dash'}
        A ``hold`` goes on from the bar before; a ``dash`` is one part more of the note before it.
    at, length : Fraction
        Quarters from the start of the bar.
    figures : tuple of TuneFigure
        One, or a double stop from the lowest up.
    grace : tuple of TuneFigure
        Small, before the note.
    slide : {'', 'up', 'down'}
        How the note is slid to.
    slur : bool
        Whether a slur goes on to the next note.
    beat : int
        The felt beat in which it begins, from 0.
    divided : int
        Lines under it: 0 in a beat that is not divided, 1 in one that is; 2 for what is short in a beat
        that is divided too finely for equal parts.
    lasts : bool
        Whether it rings on past its beat, so that a line shows how long.
    """

    shape: Literal["note", "chop", "rest", "hold", "dash"]
    at: Fraction
    length: Fraction
    figures: tuple[TuneFigure, ...] = ()
    grace: tuple[TuneFigure, ...] = ()
    slide: Literal["", "up", "down"] = ""
    slur: bool = False
    beat: int = 0
    divided: int = 0
    lasts: bool = False
