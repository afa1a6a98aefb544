"""What comes in from files paired with what a book has: what is the same first, then what is alike.

Each thing of the book is paired once. Where several are alike, one that is the same as another file still
to come is left to that file.
"""

from collections import Counter, defaultdict
from collections.abc import Hashable, Iterable
from dataclasses import dataclass

__all__ = ["InBook", "Matching"]


@dataclass(frozen=True, slots=True)
class InBook:
    """Something that the book has.

    Attributes
    ----------
    alike : hashable
        What a file has to share to be a new version of it.
    same : hashable
        What a file has to share to say nothing new.
    """

    id: int
    version: int
    alike: Hashable
    same: Hashable


class Matching:
    """The pairing of one import.

    Parameters
    ----------
    there : iterable of InBook
        All of one kind, in the order of their numbers.
    coming : iterable
        What ``same`` will be asked for, once a file.
    """

    def __init__(self, there: Iterable[InBook], coming: Iterable[Hashable]) -> None:
        self._left: defaultdict[Hashable, list[InBook]] = defaultdict(list)
        for each in there:
            self._left[each.alike].append(each)
        self._coming = Counter(coming)

    def take(self, alike: Hashable, same: Hashable) -> InBook | None:
        """What a file is paired with; nothing else will be. ``None`` where it is new."""
        self._coming[same] -= 1
        left = self._left.get(alike, [])
        found = next((each for each in left if each.same == same), None) or self._unclaimed(left)
        if found is not None:
            left.remove(found)
        return found

    def _unclaimed(self, left: list[InBook]) -> InBook | None:
        seen: Counter[Hashable] = Counter()
        for each in left:
            seen[each.same] += 1
            if seen[each.same] > self._coming[each.same]:
                return each
        return None
