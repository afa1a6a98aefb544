"""What the chords of a song say about its key, before any key is known.

Each piece of evidence is a row of the table of weights and a root: how long chords of a kind last, which
chord opens and closes the song and its sections, and which steps lead from one chord to the next (a 5 to a 1,
a 4 to a 1). Counted from a tonic, the root picks one of the row's twelve weights.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, groupby, pairwise

from fifthwise.theory.chord import LetterChord
from fifthwise.theory.quality import Quality

__all__ = ["Evidence", "LastingChord", "Sections", "chord_kind", "evidence"]

# Qualities that say the same where chords open, close or lead on.
BROADER = {"major 7": "major", "7": "major", "augmented": "major", "minor 7": "minor", "half-dim": "dim"}
NO_THIRD = "no third"


@dataclass(frozen=True, slots=True)
class LastingChord:
    """A chord and how long it lasts: in beats, or in bars, as long as all of a song count alike."""

    chord: LetterChord
    length: Fraction = Fraction(1)


Sections = Sequence[Sequence[LastingChord]]


@dataclass(frozen=True, slots=True)
class Evidence:
    """A row of the weights, the pitch class that is counted from a tonic, and how much there is of it."""

    row: str
    root: int
    amount: float


@dataclass(frozen=True, slots=True)
class _Heard:
    kind: str
    root: int
    length: float

    @property
    def broad(self) -> str:
        return BROADER.get(self.kind, self.kind)


def chord_kind(quality: Quality) -> str:
    """The kind of a chord, as far as a key is told by it."""
    if not quality.has_third:
        return NO_THIRD
    if quality.triad:
        seventh = " 7" if quality.base not in ("", "6", "69") else ""
        return {"-": f"minor{seventh}", "o": "dim", "ø": "half-dim", "+": "augmented"}[quality.triad]
    if quality.base.startswith("maj"):
        return "major 7"
    return "7" if quality.base in ("7", "9", "11", "13") else "major"


def evidence(sections: Sections) -> Iterator[Evidence]:
    """All that the chords say; nothing where there are none.

    Parameters
    ----------
    sections : sequence of sequences of LastingChord
        The song in order; a chord that stands several times running counts as one.
    """
    heard = [list(_run_together(section)) for section in sections if section]
    song = list(_merged(chain.from_iterable(heard)))
    if not song:
        return
    yield from _lengths(song)
    yield Evidence(f"first {song[0].broad}", song[0].root, 1)
    yield Evidence(f"last {song[-1].broad}", song[-1].root, 1)
    for section in heard:
        yield Evidence(f"opens {section[0].broad}", section[0].root, 1 / len(heard))
        yield Evidence(f"closes {section[-1].broad}", section[-1].root, 1 / len(heard))
    for before, after in pairwise(song):
        row = f"step {before.broad} {(after.root - before.root) % 12} {after.broad}"
        yield Evidence(row, before.root, 1 / (len(song) - 1))


def _lengths(song: Sequence[_Heard]) -> Iterator[Evidence]:
    total = sum(each.length for each in song)
    for each in song:
        yield Evidence(f"lasts {each.kind}", each.root, each.length / total)


def _run_together(section: Sequence[LastingChord]) -> Iterator[_Heard]:
    return _merged(
        _Heard(chord_kind(each.chord.quality), each.chord.root.pitch_class, float(each.length))
        for each in section
    )


def _merged(heard: Iterator[_Heard]) -> Iterator[_Heard]:
    """Chords of one root and kind that follow each other, as one."""
    for (kind, root), same in groupby(heard, key=lambda each: (each.kind, each.root)):
        yield _Heard(kind, root, sum(each.length for each in same))
