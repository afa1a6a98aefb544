"""Two texts made from a third: every place where they differ, with the side that the third speaks for."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from fifthwise.book.lines import joined, lines_of
from fifthwise.book.merge import Agreed, stretches_kept

__all__ = ["TAKES", "Difference", "Take", "differences", "taken"]

Take = Literal["mine", "theirs", "both"]
TAKES: tuple[Take, ...] = ("mine", "theirs", "both")


@dataclass(frozen=True, slots=True)
class Difference:
    """Lines in which two texts differ; a side without lines has left them out.

    Attributes
    ----------
    changed : {'mine', 'theirs', 'both'}
        Which of them is no longer as it was.
    """

    mine: str
    theirs: str
    changed: Take


def differences(base: str, mine: str, theirs: str) -> tuple[Agreed | Difference, ...]:
    """Where two texts that were made from ``base`` differ, and what stands between.

    As `merge_texts`, but what only one side changed is shown as a difference too.
    """
    texts = lines_of(base), lines_of(mine), lines_of(theirs)
    pieces: list[Agreed | Difference] = []
    at = (0, 0, 0)
    for start, length in stretches_kept(*texts):
        was, my, their = (joined(text[a:b]) for text, a, b in zip(texts, at, start, strict=True))
        if my != their:
            changed: Take = "theirs" if my == was else "mine" if their == was else "both"
            pieces.append(Difference(my, their, changed))
            my = ""
        _agree(pieces, (my, joined(texts[0][start[0] : start[0] + length])))
        at = (start[0] + length, start[1] + length, start[2] + length)
    return tuple(pieces)


def _agree(pieces: list[Agreed | Difference], parts: Sequence[str]) -> None:
    before = pieces[-1].text if pieces and isinstance(pieces[-1], Agreed) else ""
    text = joined((before, *parts))
    if before:
        pieces.pop()
    if text:
        pieces.append(Agreed(text))


def taken(pieces: Sequence[Agreed | Difference], takes: Sequence[Take]) -> str:
    """The text that a take for each difference, in order, makes; both is mine, then theirs."""
    waiting = iter(takes)
    parts: list[str] = []
    for piece in pieces:
        if isinstance(piece, Agreed):
            parts.append(piece.text)
        else:
            take = next(waiting)
            parts += [piece.mine] if take != "theirs" else []
            parts += [piece.theirs] if take != "mine" else []
    return joined(parts)
