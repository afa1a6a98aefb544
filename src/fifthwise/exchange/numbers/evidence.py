"""What speaks for a convention: how well a sheet reads in it, as a sum of weights.

The score of a convention adds up, over all lines of bars,

- for each word that cannot be read and each bar whose beats do not fill it: a loss;
- for each bar: a loss that grows with the chords in it, since most bars of songs have one or two;
- for each line: a gain where its bars are a whole number of fours, less where they are even;
- for each chord: a gain where its quality is the one that its degree has in the key's scale, a loss for a
  quality that the scale does not have there;
- for each bass: a gain where it is a tone of its chord or lies a step from the bass before or after, a loss
  where it is neither;
- for each ``5^7``: whether a major seventh or a seventh is at home on that degree.

The weights are ours, set by hand; ``bench/number_sheets.py`` tells how often they mislead.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import Literal

from fifthwise.exchange.letter_tokens import BODY, Token
from fifthwise.exchange.numbers.chords import Counting, counting_of, read_typed
from fifthwise.exchange.numbers.convention import Convention
from fifthwise.exchange.numbers.items import RESTS
from fifthwise.exchange.numbers.lines import part_line
from fifthwise.exchange.numbers.sheet import MusicLine
from fifthwise.exchange.numbers.words import read_unit
from fifthwise.theory import ChordFault, Metre, NumberChord

__all__ = ["is_strange_bass", "score", "typed_bars"]

UNREAD, UNFILLED = -6.0, -3.0
CROWDED = {0: 0.0, 1: 0.0, 2: -0.5, 3: -3.0, 4: -2.5}
MORE_CROWDED = -4.0
FOURS, EVEN, ODD = 1.0, 0.2, -0.5
DIATONIC, STRANGE_THIRD, OTHER = 0.3, -0.6, 0.0
BASS_TONE, BASS_SEVENTH, BASS_NINTH, BASS_STRANGE = 1.0, 0.5, -0.5, -2.0
BASS_STEP = 0.4
NO_BASS = -6.0  # a bass counted from the chord is never its 1
NEAR_TONES = frozenset({-2, 5, 2, -1})  # sevenths, the ninth and the eleventh: no tones, but usual basses
HAT = 1.0
MAJOR_DEGREES, MINOR_DEGREES = frozenset({"1", "4", "5"}), frozenset({"2", "3", "6"})


@dataclass(frozen=True, slots=True)
class TypedBar:
    """One bar: the chords in it as typed, whether their beats fill it, and its words that are nothing."""

    chords: tuple[str, ...]
    filled: bool
    strays: int


def score(lines: Sequence[MusicLine], convention: Convention) -> float:
    """How well lines read in a convention; only the difference of two scores says anything."""
    total = 0.0
    for line in lines:
        bars = typed_bars(line, convention)
        total += _length(len(bars)) + sum(map(_crowd, bars))
        counting = counting_of(convention, line.key)
        total += _harmony(tuple(chord for bar in bars for chord in bar.chords), counting)
    return total


def typed_bars(line: MusicLine, convention: Convention) -> tuple[TypedBar, ...]:
    """The bars of a line; what is typed ``%`` has no chords."""
    return _typed_bars(line.text, line.column, _structure(convention), line.metre, line.spans)


def _structure(convention: Convention) -> Convention:
    """The convention without what does not bear on bars, so that its bars are parted once."""
    slash: Literal["key", "split"] = "split" if convention.slash == "split" else "key"
    return replace(convention, plain="major", slash=slash, hat="seven", greater="accent", bang="stop")


@lru_cache(maxsize=4096)
def _typed_bars(
    text: str, column: int, convention: Convention, metre: Metre, spans: tuple[tuple[int, int], ...]
) -> tuple[TypedBar, ...]:
    tokens = part_line(text, column, convention, metre, spans)
    return tuple(_typed_bar(bar, convention, metre) for bar in _bars(tokens))


def _bars(tokens: list[Token]) -> Iterator[list[Token]]:
    inside: list[Token] = []
    for token in (*tokens, Token("bar", "|", 0)):
        if token.kind != "bar":
            inside.append(token)
        elif any(each.kind in BODY for each in inside):
            yield inside
            inside = []


def _typed_bar(tokens: list[Token], convention: Convention, metre: Metre) -> TypedBar:
    body = [token for token in tokens if token.kind in BODY]
    words = [token for token in body if token.kind == "word" and token.text not in RESTS]
    units = [read_unit(token.text, convention) for token in words]
    grouped = [word for token in body if token.kind == "group" for word in token.text[1:-1].split()]
    once = any(token.kind == "metre" for token in tokens)
    filled = once or _fills(body, [unit.dots for unit in units], convention, metre)
    strays = sum(token.kind == "stray" for token in body)
    return TypedBar((*(unit.text for unit in units), *grouped), filled, strays)


def _fills(body: list[Token], dots: list[int], convention: Convention, metre: Metre) -> bool:
    """Whether the beats of a bar add up, by the rules of chart text."""
    if len(body) == 1 and not any(dots):
        return True
    beats = [token.text for token in body if token.kind == "beats"]
    if beats or any(dots) or any(token.kind == "group" or token.text in RESTS for token in body):
        more = convention.dots == "more"
        words = sum(max(1, count + (more and count > 0)) for count in dots)
        others = sum(token.kind not in ("word", "beats") or token.text in RESTS for token in body)
        return words + others + sum(map(len, beats)) == metre.beats
    return int(metre.length / metre.share) % len(body) == 0


def _length(bars: int) -> float:
    return FOURS if bars % 4 == 0 else EVEN if bars % 2 == 0 else ODD


def _crowd(bar: TypedBar) -> float:
    loss = CROWDED.get(len(bar.chords), MORE_CROWDED)
    return loss + (0.0 if bar.filled else UNFILLED) + bar.strays * UNREAD


@lru_cache(maxsize=16384)
def _harmony(typed: tuple[str, ...], counting: Counting) -> float:
    chords = [_read(text, counting) for text in typed]
    total = sum(UNREAD if chord is None else _fit(chord) for chord in chords)
    if counting.slash == "chord":
        total += NO_BASS * sum(text.endswith("/1") for text in typed)
    total += sum(_hat(text, counting) for text in typed if "^" in text)
    basses = [None if chord is None else chord.bass or chord.root for chord in chords]
    for place, chord in enumerate(chords):
        if chord is None or chord.bass is None:
            continue
        near = [other for other in basses[max(0, place - 1) : place + 2] if other is not None]
        steps = sum((a.semitones - b.semitones) % 12 in (0, 1, 2, 10, 11) for a, b in pairwise(near))
        total += _bass(chord) + BASS_STEP * steps
    return total


def _read(text: str, counting: Counting) -> NumberChord | None:
    try:
        return read_typed(text, counting)
    except ChordFault:
        return None


def _fit(chord: NumberChord) -> float:
    """Whether a chord's third is the scale's, counted from a major 1 or, by its flats, from a minor one."""
    if not chord.quality.has_third:
        return OTHER
    small = chord.quality.triad in ("-", "o", "ø")
    degree = str(chord.root)
    if degree in MAJOR_DEGREES:
        return DIATONIC if not small else STRANGE_THIRD / 2
    if degree in MINOR_DEGREES:
        return DIATONIC if small else STRANGE_THIRD
    if degree == "7":
        return DIATONIC if small else STRANGE_THIRD
    return OTHER


def _bass(chord: NumberChord) -> float:
    assert chord.bass is not None
    tones = [tone.fifths for tone in chord.quality.tones]
    away = chord.bass.fifths - chord.root.fifths
    if away in tones:
        return BASS_TONE
    if away in (-2, 5):
        return BASS_SEVENTH
    return BASS_NINTH if away in (2, -1) else BASS_STRANGE


def is_strange_bass(text: str, counting: Counting) -> bool:
    """Whether a chord's bass, so counted, is none at all, or no tone that a bass usually has."""
    chord = _read(text, counting)
    if chord is None or chord.bass is None:
        return True
    away = chord.bass.fifths - chord.root.fifths
    return away not in NEAR_TONES and away not in [tone.fifths for tone in chord.quality.tones]


def _hat(text: str, counting: Counting) -> float:
    """``5^7`` can hardly be a major seventh, ``1^7`` and ``4^7`` often are."""
    on_tonic = text.lstrip("b#♭♯")[:1] in ("1", "4") and not re.search("[-m]", text)
    return HAT if on_tonic == (counting.hat == "major-seven") else -HAT
