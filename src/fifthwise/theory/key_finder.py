"""The key of a song, found from its chords: every key with how likely it is, and where a song moves.

The tonic comes from trained weights; whether it is major or minor, from the chords on it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp

from fifthwise.theory.key import Key
from fifthwise.theory.key_evidence import LastingChord, Sections
from fifthwise.theory.key_moves import tonics_by_section
from fifthwise.theory.key_weights import Weights, carried_weights, scores
from fifthwise.theory.note import NoteName
from fifthwise.theory.quality import Quality

__all__ = ["FoundKey", "LikelyKey", "find_key"]

SURE = 0.8  # how often the keys that are told as sure are right: docs/benchmarks.md
FEWEST_ROOTS = 3  # with fewer, the chords stand in more than one key: C and F in C (1 4) and in F (5 1)
WIDEST = 7  # sharps or flats
# Semitones above the tonic that speak for minor and for major where no chord stands on it.
OF_MINOR, OF_MAJOR = (3, 8, 10), (4, 9, 11)
DOUBT = 0.01  # of all time, what is taken as heard of the mode that never is


@dataclass(frozen=True, slots=True)
class LikelyKey:
    """A key and its likelihood, 0 to 1; those of all keys make 1 together."""

    key: Key
    likelihood: float


@dataclass(frozen=True, slots=True)
class FoundKey:
    """What was found.

    Attributes
    ----------
    ranking : tuple of LikelyKey
        The 24 keys, the likeliest first, spelled as the chords are.
    by_section : tuple of Key
        The key of each section that was given; one without chords has that of the section before. A
        section in the relative key, or in one a fifth away, is not told from the song's.
    roots : int
        How many different roots the chords have.
    """

    ranking: tuple[LikelyKey, ...]
    by_section: tuple[Key, ...]
    roots: int

    @property
    def first(self) -> Key:
        """The likeliest key."""
        return self.ranking[0].key

    @property
    def runner_up(self) -> Key:
        """The likeliest key with another tonic."""
        tonic = self.first.tonic.pitch_class
        return next(each.key for each in self.ranking if each.key.tonic.pitch_class != tonic)

    @property
    def sure(self) -> float:
        """How likely it is that the first key's tonic is right, 0 to 1."""
        tonic = self.first.tonic.pitch_class
        return sum(each.likelihood for each in self.ranking if each.key.tonic.pitch_class == tonic)

    @property
    def is_sure(self) -> bool:
        """Whether the first key can be taken without asking; with two chords it never can."""
        return self.sure >= SURE and self.roots >= FEWEST_ROOTS

    @property
    def moves(self) -> bool:
        """Whether some section stands in another key."""
        return any(key != self.first for key in self.by_section)


def find_key(sections: Sections, weights: Weights | None = None) -> FoundKey | None:
    """Find the key of a song; ``None`` where it has no chord.

    Parameters
    ----------
    sections : sequence of sequences of LastingChord
        The chords of each section in order, without what is no chord.
    weights : dict, optional
        Other weights than those that come with the package.
    """
    weights = carried_weights() if weights is None else weights
    song = [each for section in sections for each in section]
    if not song:
        return None
    found = scores(sections, weights)
    chances = _chances(found)
    minor = [_minor_share(song, tonic) for tonic in range(12)]
    likely = [
        LikelyKey(_spelled(tonic, mode, song), chances[tonic] * share)
        for tonic in range(12)
        for mode, share in (("major", 1 - minor[tonic]), ("minor", minor[tonic]))
    ]
    ranking = tuple(sorted(likely, key=lambda each: -each.likelihood))
    # The likeliest tonic, in its likelier mode: of one tonic that wavers, both modes share its chance.
    best = max(range(12), key=lambda tonic: chances[tonic])
    ahead = next(each for each in ranking if each.key.tonic.pitch_class == best)
    ranking = (ahead, *(each for each in ranking if each is not ahead))
    roots = len({each.chord.root.pitch_class for each in song})
    return FoundKey(ranking, tuple(_by_section(sections, weights, ahead.key)), roots)


def _chances(found: Sequence[float]) -> list[float]:
    most = max(found)
    odds = [exp(each - most) for each in found]
    return [each / sum(odds) for each in odds]


def _minor_share(song: Sequence[LastingChord], tonic: int) -> float:
    """How much of what stands on a tonic is minor; where nothing does, how much of the scale."""
    total = sum(float(each.length) for each in song)
    minor = major = 0.0
    for each in song:
        thirds = _third(each.chord.quality)
        if each.chord.root.pitch_class == tonic and thirds:
            minor += float(each.length) * (thirds == 3)
            major += float(each.length) * (thirds == 4)
    if not minor and not major:
        minor, major = (_heard(song, tonic, places) for places in (OF_MINOR, OF_MAJOR))
        minor *= 1 - DOUBT  # where nothing tells, major
    doubt = DOUBT * total
    return (minor + doubt) / (minor + major + 2 * doubt) if minor or major else DOUBT


def _third(quality: Quality) -> int:
    """The semitones of the third, 3 or 4; 0 without one."""
    return next((t.semitones for t in quality.tones if t.steps == 2), 0)


def _heard(song: Sequence[LastingChord], tonic: int, places: tuple[int, ...]) -> float:
    return sum(
        float(each.length)
        for each in song
        for tone in each.chord.quality.tones
        if (each.chord.root.pitch_class + tone.semitones - tonic) % 12 in places
    )


def _spelled(tonic: int, mode: str, song: Sequence[LastingChord]) -> Key:
    """The key in the spelling that lies nearest to the chords'; of two as near, with fewer accidentals."""
    spellings = (NoteName(tonic * 7 % 12 + turn) for turn in (-24, -12, 0, 12))
    kept = [key for name in spellings if abs((key := Key(name, mode)).signature) <= WIDEST]
    return min(kept, key=lambda key: (_away(key, song), abs(key.signature), key.signature))


def _away(key: Key, song: Sequence[LastingChord]) -> float:
    """How far the roots lie from the middle of the key's scale, which is its relative major's 2."""
    middle = key.signature + 2
    return sum(abs(each.chord.root.fifths - middle) * float(each.length) for each in song)


def _by_section(sections: Sections, weights: Weights, key: Key) -> list[Key]:
    each_scores = [scores([section], weights) for section in sections]
    found = tonics_by_section(each_scores, key.tonic.pitch_class)
    keys: list[Key] = []
    for tonic, section in zip(found, sections, strict=True):
        if tonic == key.tonic.pitch_class:
            keys.append(key)
        elif keys and keys[-1].tonic.pitch_class == tonic:
            keys.append(keys[-1])
        else:
            mode = "minor" if _minor_share(section, tonic) > 0.5 else "major"
            keys.append(_spelled(tonic, mode, section))
    return keys
