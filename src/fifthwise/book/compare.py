"""Two texts side by side, line by line."""

from collections.abc import Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Literal

from fifthwise.book.lines import lines_of

__all__ = ["DiffLine", "compare_texts"]


@dataclass(frozen=True, slots=True)
class DiffLine:
    """One line of two texts side by side.

    Attributes
    ----------
    kind : {'same', 'less', 'more'}
        In both texts, in the one only, in the other only.
    text : str
        Without its end.
    one, other : int or None
        The line's number in each text, from 1; ``None`` where it does not stand.
    """

    kind: Literal["same", "less", "more"]
    text: str
    one: int | None
    other: int | None


def compare_texts(one: str, other: str) -> tuple[DiffLine, ...]:
    """Compare two texts; how lines end does not count. What went stands before what came."""
    left, right = ([line.rstrip("\r\n") for line in lines_of(text)] for text in (one, other))
    lines: list[DiffLine] = []
    for kind, a, a_end, b, b_end in SequenceMatcher(None, left, right).get_opcodes():
        if kind == "equal":
            places = zip(range(a, a_end), range(b, b_end), strict=True)
            lines += (DiffLine("same", left[i], i + 1, j + 1) for i, j in places)
        else:
            lines += _changed(left, right, range(a, a_end), range(b, b_end))
    return tuple(lines)


def _changed(left: list[str], right: list[str], went: range, came: range) -> Iterator[DiffLine]:
    yield from (DiffLine("less", left[place], place + 1, None) for place in went)
    yield from (DiffLine("more", right[place], None, place + 1) for place in came)
