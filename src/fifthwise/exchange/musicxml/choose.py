"""Which line of a score is its tune, and which of its parts has the chords.

The tune is the line that sounds most, and most often on top, within a singer's or a player's range; words
under it, and chords above it, speak for it. The weights are ours, no source.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.exchange.errors import UnknownPart
from fifthwise.exchange.musicxml.raw import RawNote, RawPart
from fifthwise.theory import SpelledPitch

__all__ = ["ScorePart", "best_line", "chord_part", "lines_of"]

LOWEST, HIGHEST = 50, 91  # MIDI: D3 to G6
OUT_OF_RANGE, UNDER_OTHERS, WITH_WORDS, WITH_CHORDS = 0.25, 0.4, 6.0, 1.5


@dataclass(frozen=True, slots=True)
class ScorePart:
    """A line of a score that may be its tune: a part, or a voice of one.

    Attributes
    ----------
    key : str
        What asks for it: the part's id, with the voice behind a slash where the part has several.
    name : str
        As the score calls the part.
    notes : int
        How many sound, ties counted once; 0 for a part of chords alone.
    lowest, highest : SpelledPitch or None
        Where it has notes.
    words : bool
        Whether it is sung.
    chords : int
        That stand over its part.
    """

    key: str
    name: str
    part: str
    voice: str
    notes: int
    lowest: SpelledPitch | None
    highest: SpelledPitch | None
    words: bool
    chords: int


def lines_of(parts: Sequence[RawPart]) -> tuple[tuple[ScorePart, ...], dict[str, float]]:
    """Every line of a score, and how much speaks for it as the tune, by its key."""
    weights = _weights(parts)
    found: dict[str, ScorePart] = {}
    for part in parts:
        chords = sum(len(bar.chords) for bar in part.bars)
        lines = _voices(part)
        for voice, notes in lines.items():
            key = part.id if len(lines) == 1 else f"{part.id}/{voice}"
            ordered = sorted((note.pitch for note in notes), key=_height)
            found[key] = ScorePart(
                key, part.name, part.id, voice,
                sum(not note.goes_on for note in notes),
                ordered[0] if ordered else None, ordered[-1] if ordered else None,
                any(note.lyrics for note in notes), chords,
            )  # fmt: skip
    lines_found = tuple(found.values())
    return lines_found, {line.key: _weight(line, weights) for line in lines_found}


def _voices(part: RawPart) -> dict[str, list[RawNote]]:
    lines: dict[str, list[RawNote]] = defaultdict(list)
    for bar in part.bars:
        for note in bar.notes:
            lines[note.voice].append(note)
    return dict(lines) or {"1": []}


def _weights(parts: Sequence[RawPart]) -> dict[tuple[str, str], float]:
    """Quarters that each voice of each part sounds; out of range and under other voices they count less."""
    measured = [(part.id, *bar) for part in parts for bar in _bars(part)]
    tops: dict[int, float] = {}
    for _, at, _, mean, _ in measured:
        if mean <= HIGHEST:
            tops[at] = max(tops.get(at, 0.0), mean)
    weights: dict[tuple[str, str], float] = defaultdict(float)
    for part, at, voice, mean, quarters in measured:
        fits = 1.0 if LOWEST <= mean <= HIGHEST else OUT_OF_RANGE
        weights[part, voice] += quarters * fits * (1.0 if mean >= tops.get(at, 0.0) else UNDER_OTHERS)
    return weights


def _bars(part: RawPart) -> Iterator[tuple[int, str, float, float]]:
    """Each bar of each voice: where, which, its mean height, and quarters that sound."""
    for at, bar in enumerate(part.bars):
        heights: dict[str, dict[Fraction, tuple[int, Fraction]]] = defaultdict(dict)
        for note in bar.notes:
            line = heights[note.voice]
            line[note.at] = max(line.get(note.at, (0, Fraction(0))), (note.pitch.midi, note.length))
        for voice, line in heights.items():
            quarters = float(sum(length for _, length in line.values()))
            mean = sum(midi for midi, _ in line.values()) / len(line)
            yield at, voice, mean, quarters


def _weight(line: ScorePart, weights: dict[tuple[str, str], float]) -> float:
    total = weights.get((line.part, line.voice), 0.0)
    return total * (WITH_WORDS if line.words else 1.0) * (WITH_CHORDS if line.chords else 1.0)


def best_line(
    lines: Sequence[ScorePart], weights: dict[str, float], wanted: str | None, file: str
) -> ScorePart:
    """The line asked for by its key, its part's id or name, or its number from 1; or the best one.

    Raises
    ------
    UnknownPart
        No line is called so.
    """
    if wanted is not None:
        asked = wanted.strip().casefold()
        named = [line for line in lines if line.key.casefold() == asked]
        named = named or [line for line in lines if asked in (line.part.casefold(), line.name.casefold())]
        if not named and asked.isdecimal() and 0 < int(asked[:6]) <= len(lines):
            named = [lines[int(asked[:6]) - 1]]
        if not named:
            known = ", ".join(f"'{line.name or line.key}'" for line in lines[:12])
            raise UnknownPart(f"there is no part '{wanted[:40]}'", file, f"Write one of {known}")
        lines = named
    return max(lines, key=lambda line: weights[line.key])


def chord_part(parts: Sequence[RawPart], tune: str) -> str:
    """The part whose chords count: the tune's, or where it has none the one with the most."""
    counts = {part.id: sum(len(bar.chords) for bar in part.bars) for part in parts}
    return tune if counts[tune] else max(counts, key=lambda part: counts[part])


def _height(pitch: SpelledPitch) -> int:
    return pitch.midi
