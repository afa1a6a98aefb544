"""The singers of a book side by side: each voice as a line, all to one scale."""

from dataclasses import dataclass

from fifthwise.book import KeptSinger
from fifthwise.theory import SpelledPitch

__all__ = ["VoiceLine", "VoiceLines", "voice_lines"]


@dataclass(frozen=True, slots=True)
class VoiceLine:
    """One voice; all places are per cent of the line's length, from the left.

    Attributes
    ----------
    reach, easy : tuple of float
        From, and up to.
    turns : tuple of float
        Where it changes over.
    songs : int
        How many songs the singer has sung.
    """

    kept: KeptSinger
    reach: tuple[float, float]
    easy: tuple[float, float]
    turns: tuple[float, ...]
    songs: int


@dataclass(frozen=True, slots=True)
class VoiceLines:
    """All voices, and each C of the scale by its place and name."""

    lines: tuple[VoiceLine, ...]
    octaves: tuple[tuple[float, str], ...]


def voice_lines(singers: tuple[KeptSinger, ...], songs: dict[int, int]) -> VoiceLines:
    """Lay the singers out to one scale.

    Parameters
    ----------
    songs : dict
        How many songs each has sung, by the singer's number.
    """
    notes = [midi for kept in singers for midi in _midis(kept)]
    low, high = min(notes, default=48) - 1, max(notes, default=72) + 1

    def place(midi: int) -> float:
        return round(100 * (midi - low) / (high - low), 2)

    def ends(first: SpelledPitch, last: SpelledPitch) -> tuple[float, float]:
        return place(first.midi), place(last.midi)

    lines = tuple(
        VoiceLine(
            kept,
            ends(kept.singer.usable.low, kept.singer.usable.high),
            ends(kept.singer.comfort.low, kept.singer.comfort.high),
            tuple(place(turn.midi) for turn in kept.singer.turns),
            songs.get(kept.id, 0),
        )
        for kept in singers
    )
    octaves = ((place(midi), f"C{midi // 12 - 1}") for midi in range(low, high + 1) if midi % 12 == 0)
    return VoiceLines(lines, tuple(octaves))


def _midis(kept: KeptSinger) -> list[int]:
    voice = kept.singer
    return [note.midi for note in (voice.usable.low, voice.usable.high, *voice.turns)]
