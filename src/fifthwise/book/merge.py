"""Two texts that were both made from a third, brought together line by line."""

from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Literal

from fifthwise.book.lines import joined, lines_of

__all__ = ["Agreed", "Choice", "merge_texts", "merged_text", "stretches_kept"]

Place = tuple[int, int, int]  # a line's index in base, mine and theirs


@dataclass(frozen=True, slots=True)
class Agreed:
    """Lines that no one has to choose: neither side changed them, or one did, or both alike."""

    text: str


@dataclass(frozen=True, slots=True)
class Choice:
    """Lines that both sides changed, each in its own way; a side without lines has left them out."""

    base: str
    mine: str
    theirs: str


def merge_texts(base: str, mine: str, theirs: str) -> tuple[Agreed | Choice, ...]:
    """Bring two texts together that were made from ``base``.

    Returns
    -------
    tuple of Agreed or Choice
        In the order of the text; no two neighbours are both ``Agreed``.
    """
    texts = lines_of(base), lines_of(mine), lines_of(theirs)
    pieces: list[Agreed | Choice] = []
    at = (0, 0, 0)
    for start, length in stretches_kept(*texts):
        _add(pieces, *(joined(text[a:b]) for text, a, b in zip(texts, at, start, strict=True)))
        _agree(pieces, joined(texts[0][start[0] : start[0] + length]))
        at = (start[0] + length, start[1] + length, start[2] + length)
    return tuple(pieces)


def merged_text(pieces: tuple[Agreed | Choice, ...], side: Literal["base", "mine", "theirs"]) -> str:
    """The text with one side's lines wherever there is a choice."""
    return joined(piece.text if isinstance(piece, Agreed) else getattr(piece, side) for piece in pieces)


def stretches_kept(base: list[str], mine: list[str], theirs: list[str]) -> list[tuple[Place, int]]:
    """Where each stretch of base that both sides kept begins in the three texts; at last their ends."""
    in_mine, in_theirs = _places(base, mine), _places(base, theirs)
    stretches: list[tuple[Place, int]] = []
    for line in sorted(in_mine.keys() & in_theirs.keys()):
        place = (line, in_mine[line], in_theirs[line])
        if stretches:
            start, length = stretches[-1]
            if place == (start[0] + length, start[1] + length, start[2] + length):
                stretches[-1] = (start, length + 1)
                continue
        stretches.append((place, 1))
    return [*stretches, ((len(base), len(mine), len(theirs)), 0)]


def _places(base: list[str], side: list[str]) -> dict[int, int]:
    """Where a side has the lines of base that it kept."""
    blocks = SequenceMatcher(None, base, side).get_matching_blocks()
    return {block.a + step: block.b + step for block in blocks for step in range(block.size)}


def _add(pieces: list[Agreed | Choice], base: str, mine: str, theirs: str) -> None:
    if theirs in (base, mine):
        _agree(pieces, mine)
    elif mine == base:
        _agree(pieces, theirs)
    else:
        pieces.append(Choice(base, mine, theirs))


def _agree(pieces: list[Agreed | Choice], text: str) -> None:
    if not text:
        return
    if pieces and isinstance(pieces[-1], Agreed):
        pieces[-1] = Agreed(joined((pieces[-1].text, text)))
    else:
        pieces.append(Agreed(text))
