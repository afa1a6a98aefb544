"""Chords set over the words they begin on.

Where a line of words says where its bars are, each bar's words stay in it. Otherwise the words are spread
over the line as the tune's notes are, or evenly over the beats where no tune is written. A chord
stands over the word that begins nearest to it, and two chords never share a word.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from fifthwise.page.lyrics_model import LyricChord, Piece

__all__ = ["Place", "joined", "spread", "syllables"]

VOWELS = re.compile(r"[aeiouyàáâäæåèéêëìíîïòóôöøœùúûü]+", re.IGNORECASE)
SILENT_E = re.compile(r"[a-z]{2,}[^aeiouyl\W]e\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Place:
    """Something that stands over the words at a share of their length, 0 to 1."""

    at: Fraction
    chord: LyricChord | None = None
    bar: bool = False
    cue: str = ""


def syllables(word: str) -> int:
    """About how many syllables a word has, at least one."""
    groups = len(VOWELS.findall(word))
    return max(1, groups - (1 if groups > 1 and SILENT_E.search(word) else 0))


def spread(words: Sequence[str], places: Sequence[Place]) -> tuple[Piece, ...]:
    """Set places, in order, over words."""
    starts = _starts(words)
    taken: dict[int, Place] = {}
    after: list[Place] = []
    free = 0
    for index, place in enumerate(places):
        last = max(free, len(words) - (len(places) - index))  # leaves a word for each that is still to come
        at = _nearest(starts, place.at, range(free, min(last + 1, len(words))))
        if at is None:
            after.append(place)
        else:
            taken[at], free = place, at + 1
    over = [_piece(word, taken.get(index)) for index, word in enumerate(words)]
    return (*over, *(_piece("", place) for place in after))


def joined(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Join words that were parted by a hyphen to sing them: ``lan-`` and ``tern`` are one word."""
    after = (*pieces[1:], Piece())
    return tuple(
        replace(piece, word=piece.word[:-1], joins=True) if _is_parted(piece.word) and other.word else piece
        for piece, other in zip(pieces, after, strict=False)
    )


def _is_parted(word: str) -> bool:
    """Whether a word ends with one hyphen, which is no dash."""
    return len(word) > 1 and word[-1] == "-" and word[-2].isalnum()


def _piece(word: str, place: Place | None) -> Piece:
    return Piece(word) if place is None else Piece(word, place.chord, place.bar, place.cue)


def _starts(words: Sequence[str]) -> list[Fraction]:
    """Where each word begins, as a share of all syllables."""
    lengths = [syllables(word) for word in words]
    total = max(1, sum(lengths))
    return [Fraction(sum(lengths[:index]), total) for index in range(len(words))]


def _nearest(starts: Sequence[Fraction], at: Fraction, free: range) -> int | None:
    """Of the words that are free, the one that begins nearest to a share; none where all are taken."""
    return min(free, key=lambda index: (abs(starts[index] - at), index)) if free else None
