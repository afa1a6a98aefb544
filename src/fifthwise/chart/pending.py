"""A bar while its text is gathered, between one bar line and the next."""

from dataclasses import dataclass, field
from fractions import Fraction

from fifthwise.chart.drafts import Place
from fifthwise.chart.mark_text import AFTER_CHORDS, Bracket
from fifthwise.chart.model import ScopedMark
from fifthwise.chart.tokens import Token
from fifthwise.theory import Metre

__all__ = ["Pending"]


@dataclass
class Pending:
    """What has been read of a bar so far.

    Attributes
    ----------
    start : Place or None
        Its first piece, or the ``|:`` before it.
    places : dict
        Where each kind of mark stands.
    cues : list of (int, Token)
        Each with the number of tokens before it.
    """

    start: Place | None = None
    repeat_start: bool = False
    endings: tuple[int, ...] = ()
    pickup: Fraction | None = None
    metre_once: Metre | None = None
    marks: list[ScopedMark] = field(default_factory=list)
    signs: dict[str, Place] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    tokens: list[Token] = field(default_factory=list)
    cues: list[tuple[int, Token]] = field(default_factory=list)

    @property
    def empty(self) -> bool:
        """Whether nothing stands between the last bar line and here."""
        return not (self.tokens or self.cues or self.places)

    @property
    def only_cues(self) -> bool:
        """Whether nothing but cues is waiting for a bar."""
        return bool(self.cues) and not (self.tokens or self.places or self.repeat_start)

    def keep(self, bracket: Bracket, place: Place) -> None:
        """Keep a mark that is in its right place."""
        self.places[bracket.kind] = place
        if bracket.sign:
            self.signs[bracket.sign] = place
        elif bracket.scoped:
            self.marks.append(bracket.scoped)
        elif bracket.endings:
            self.endings = bracket.endings
        elif bracket.metre_once:
            self.metre_once = bracket.metre_once
        else:
            self.pickup = bracket.pickup

    def misplaced(self, bracket: Bracket) -> tuple[str, str] | None:
        """What is wrong with a mark's place among the chords, and its mend."""
        if bracket.kind in self.places:
            return "stands beside another of its kind", "Keep one of them in a bar"
        late = bracket.sign in AFTER_CHORDS
        if late == bool(self.tokens):
            return None
        fix = "Put it after the bar's last chord" if late else "Put it before the bar's first chord"
        return "stands in the wrong place", fix
