"""Ties and slurs of a tune, which may reach over bar lines: each is written in the bar that it begins in."""

from collections import defaultdict
from collections.abc import Sequence

from fifthwise.page.staff.element import element
from fifthwise.page.staff.model import StaffNote
from fifthwise.page.staff.pieces import Piece

__all__ = ["Hung", "head_names", "sign_name"]


def sign_name(bar: int, place: int) -> str:
    """The name of a sign: its bar, and its place in that."""
    return f"n{bar}-{place}"


def head_names(name: str, note: StaffNote) -> tuple[str, ...]:
    """The names of a note's heads: its own, or one for each of several."""
    count = len(note.pitches)
    return (name,) if count <= 1 else tuple(f"{name}-{head}" for head in range(count))


class Hung:
    """What hangs between signs, noted bar after bar.

    Attributes
    ----------
    of : dict of int to str
        Ties and slurs by the bar that they begin in.
    """

    def __init__(self) -> None:
        self.of: dict[int, str] = defaultdict(str)
        self._slur: tuple[int, str] | None = None
        self._before: tuple[int, tuple[str, ...]] | None = None

    def leave(self) -> None:
        """Part what comes from what was: a section begins."""
        self._slur = self._before = None

    def add(self, pieces: Sequence[Piece], bar: int) -> None:
        """Note what ends in a bar, and what begins there."""
        for place, piece in enumerate(pieces):
            if piece.note is None or not piece.note.pitches:
                self.leave()
            else:
                self._add(piece, piece.note, bar, sign_name(bar, place))

    def _add(self, piece: Piece, note: StaffNote, bar: int, name: str) -> None:
        heads = head_names(name, note)
        if note.goes_on or not piece.first:
            self._tie(heads, bar)
        else:
            self._end_slur(note, bar, name)
        self._before = bar, heads

    def _tie(self, heads: tuple[str, ...], bar: int) -> None:
        if self._before is None:  # from a bar that is not shown
            for head in heads:
                self.of[bar] += element("tie", tstamp="0", endid=f"#{head}", staff=1)
            return
        start_bar, starts = self._before
        for start, head in zip(starts, heads, strict=True):
            self.of[start_bar] += element("tie", startid=f"#{start}", endid=f"#{head}", staff=1)

    def _end_slur(self, note: StaffNote, bar: int, name: str) -> None:
        if self._slur and not note.slurred:
            start_bar, start = self._slur
            self.of[start_bar] += element("slur", startid=f"#{start}", endid=f"#{name}", staff=1)
            self._slur = None
        elif note.slurred and not self._slur:
            self._slur = bar, name
