"""Chords found from the notes that sound, half a bar at a time.

Each half bar's pitch classes, weighed by how long they sound, are held against templates of the chart's
common qualities: what lies in the chord speaks for it, what lies outside and what is missing against, the
lowest note for its root. One way through all half bars is then the best, a change of chord costing a little
(Viterbi). The templates are the chords' own tones; the weights are ours, measured in
``bench/midi_reading.py``.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from fifthwise.exchange.midi.bars import Span
from fifthwise.exchange.midi.chord_text import TimedChord
from fifthwise.exchange.midi.raw import RawPart
from fifthwise.exchange.midi.spell import spelled_class
from fifthwise.theory import Key, LetterChord, NoteName, Quality, make_quality, quality_tones

__all__ = ["Window", "found_chords", "windows_of"]

SEMITONES = 12
HALVES = 2
# Triad and base of each quality, and what its rarity costs.
QUALITIES: tuple[tuple[str, str, float], ...] = (
    ("", "", 0.0), ("-", "", 0.0), ("", "7", 0.06), ("-", "7", 0.06), ("", "maj7", 0.08), ("", "sus", 0.1),
    ("o", "", 0.12), ("ø", "7", 0.12), ("o", "7", 0.12), ("+", "", 0.14),
)  # fmt: skip
OUTSIDE, MISSING, ON_ROOT, CHANGE = 0.3, 0.12, 0.35, 0.15
HEARD = 0.04  # share of the sound from which a tone counts as there
TUNE_WEIGHT = 0.5
MOST_HALVES = 16  # that one note counts for; what sounds longer is a drone or was never ended
AT_START = 8  # parts of a window; the lowest note that sounds in the first of them is its bass
State = tuple[int, int]  # root pitch class, place in QUALITIES


@dataclass(frozen=True, slots=True)
class Window:
    """Half a bar: what sounds in it, and the lowest note's pitch class."""

    start: Fraction
    bar: int
    weights: tuple[float, ...]
    bass: int | None


def windows_of(spans: Sequence[Span], parts: Sequence[tuple[RawPart, bool]], ppq: int) -> list[Window]:
    """Part bars in halves.

    Parameters
    ----------
    parts : sequence of (RawPart, bool)
        What counts, and whether it is the tune, which counts less.
    """
    edges = [edge for at, span in enumerate(spans) for edge in _edges(span, at)]
    ticks = [float(start) * ppq for start, _ in edges] + [float(spans[-1].end) * ppq]
    weights = [[0.0] * SEMITONES for _ in edges]
    lows: list[dict[int, float]] = [{} for _ in edges]
    for part, is_tune in parts:
        for note in part.notes:
            if note.end == note.start:
                continue
            for at in _touched(ticks, note.start, note.end):
                size = ticks[at + 1] - ticks[at]
                length = min(note.end, ticks[at + 1]) - max(note.start, ticks[at])
                weights[at][note.midi % SEMITONES] += length * (TUNE_WEIGHT if is_tune else 1.0)
                if note.start <= ticks[at] + size / AT_START:
                    lows[at][note.midi] = length
    rows = zip(edges, weights, lows, strict=True)
    return [Window(start, bar, _shares(each), _bass(low)) for (start, bar), each, low in rows]


def _edges(span: Span, bar: int) -> Iterator[tuple[Fraction, int]]:
    yield span.start, bar
    if span.length == span.metre.length and span.length > HALVES and span.metre.beats % HALVES == 0:
        yield span.start + span.length / HALVES, bar


def _touched(ticks: Sequence[float], start: float, end: float) -> Iterator[int]:
    at = max(bisect_right(ticks, start) - 1, 0)
    last = min(at + MOST_HALVES, len(ticks) - 1)
    while at < last and ticks[at] < end:
        yield at
        at += 1


def _shares(weights: Sequence[float]) -> tuple[float, ...]:
    total = sum(weights)
    return tuple(weight / total for weight in weights) if total else ()


def _bass(low: dict[int, float]) -> int | None:
    return min(low) % SEMITONES if low else None


def found_chords(windows: Sequence[Window], keys: Sequence[Key]) -> list[TimedChord]:
    """The chords of half bars, equal ones merged; a half bar of silence goes on with the one before.

    Parameters
    ----------
    keys : sequence of Key
        That hold in each bar, for the spelling.
    """
    heard = [window for window in windows if window.weights]
    states = _best_way(heard)
    found: list[TimedChord] = []
    for state, group in groupby(zip(states, heard, strict=True), key=lambda pair: pair[0]):
        run = [window for _, window in group]
        basses = {window.bass for window in run}
        bass = basses.pop() if len(basses) == 1 else None
        found.append((run[0].start, _chord(state, bass, keys[run[0].bar])))
    if found and heard[0] is not windows[0]:
        found.insert(0, (windows[0].start, None))
    return found


def _chord(state: State, bass: int | None, key: Key) -> LetterChord:
    root, quality = spelled_class(state[0], key), _quality(state[1])
    over = None
    if bass is not None and bass != state[0]:
        tones = [
            tone.fifths for tone in quality_tones(quality) if (root + tone.fifths) * 7 % SEMITONES == bass
        ]
        over = NoteName(root + tones[0]) if tones else None
    return LetterChord(NoteName(root), quality, over)


def _quality(place: int) -> Quality:
    triad, base, _ = QUALITIES[place]
    return make_quality(triad, base)


def _tones() -> tuple[tuple[tuple[int, ...], float], ...]:
    """The semitones above the root of each quality, and its cost."""
    rows = ((_quality(at), cost) for at, (_, _, cost) in enumerate(QUALITIES))
    return tuple((tuple(tone.semitones % SEMITONES for tone in quality_tones(q)), cost) for q, cost in rows)


TONES = _tones()
STATES: tuple[State, ...] = tuple((root, q) for root in range(SEMITONES) for q in range(len(QUALITIES)))


def _scores(window: Window) -> list[float]:
    """How well each state fits a window."""
    weights = window.weights * HALVES
    heard = [weight >= HEARD for weight in weights]
    found = []
    for root, quality in STATES:
        tones, cost = TONES[quality]
        inside, missing = 0.0, 0
        for tone in tones:
            inside += weights[root + tone]
            missing += not heard[root + tone]
        found.append(
            inside - OUTSIDE * (1 - inside) - MISSING * missing - cost + ON_ROOT * (window.bass == root)
        )
    return found


def _best_way(windows: Sequence[Window]) -> list[State]:
    """The states that fit best in all, a change costing ``CHANGE``."""
    if not windows:
        return []
    totals = _scores(windows[0])
    back: list[list[int]] = []
    for window in windows[1:]:
        best = max(range(len(totals)), key=totals.__getitem__)
        floor = totals[best] - CHANGE
        back.append([at if total >= floor else best for at, total in enumerate(totals)])
        totals = [max(t, floor) + s for t, s in zip(totals, _scores(window), strict=True)]
    at = max(range(len(totals)), key=totals.__getitem__)
    way = [at]
    for row in reversed(back):
        at = row[at]
        way.append(at)
    return [STATES[each] for each in reversed(way)]
