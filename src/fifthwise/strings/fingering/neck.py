"""An instrument's hands and moves at one level, made once and kept while the program runs."""

from functools import lru_cache
from threading import Lock
from typing import TypeAlias

from fifthwise.strings.fingering.costs import Costs
from fifthwise.strings.fingering.hands import Hand, Hands, gather, hands_of
from fifthwise.strings.fingering.line import LineNote
from fifthwise.strings.fingering.moves import Moves, moves_between
from fifthwise.strings.fingering.pins import FREE, Pin, read_pin
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.theory import SpelledPitch

__all__ = ["Neck", "neck_of"]

# What a neck keeps at most: places in its tables of moves, of 32 bytes each, and hands, of some 500.
MOST_MOVES, MOST_HANDS = 4_000_000, 100_000
Asked: TypeAlias = tuple[tuple[tuple[SpelledPitch, ...], tuple[str, ...], float], ...]


class Neck:
    """What hands can do on an instrument at a level.

    The hands of a place in a line have a number, so that a table of moves is found by two numbers.
    """

    def __init__(self, instrument: Instrument, level: Level, costs: Costs, *, harmonics: bool) -> None:
        self.instrument, self.level, self.costs, self.harmonics = instrument, level, costs, harmonics
        self.hands: list[Hands] = []
        self._numbers: dict[tuple[bool, Asked], int] = {}
        self._moves: dict[tuple[int, int], Moves] = {}
        self._lock = Lock()
        self._kept = 0

    def number(self, choices: tuple[LineNote, ...], *, long: bool, where: str) -> int:
        """The number of the hands that play one of ``choices``.

        Raises
        ------
        LineFault
            A pin cannot be read, or names a string that is not there.
        """
        asked = long, tuple((note.pitches, note.pins, note.cost) for note in choices)
        found = self._numbers.get(asked)
        return self._add(asked, choices, where) if found is None else found

    def _add(self, asked: tuple[bool, Asked], choices: tuple[LineNote, ...], where: str) -> int:
        made = gather(
            [
                (at, note.pitches, note.cost, hand)
                for at, note in enumerate(choices)
                for hand in self._ways(note, long=asked[0], where=where)
            ]
        )
        # Two searches at a time must not give one number to different hands.
        with self._lock:
            self.hands.append(made)
            self._numbers[asked] = len(self.hands) - 1
            return self._numbers[asked]

    def _ways(self, note: LineNote, *, long: bool, where: str) -> list[Hand]:
        pins = pins_of(note, self.instrument, where)
        centres = self.instrument.frame.centres(self.level)
        return list(
            hands_of(
                self.instrument, centres, note.pitches, pins, self.costs,
                long=long, harmonics=self.harmonics,
            )
        )  # fmt: skip

    def moves(self, before: int, after: int) -> Moves:
        """The moves between the hands of two numbers."""
        found = self._moves.get((before, after))
        if found is None:
            found = moves_between(self.hands[before], self.hands[after], self.costs)
            self._kept += found.plain.size
            if self._kept > MOST_MOVES:
                self._moves.clear()
                self._kept = found.plain.size
            self._moves[before, after] = found
        return found


def pins_of(note: LineNote, instrument: Instrument, where: str) -> tuple[Pin, ...]:
    """A note's pins, one a pitch."""
    if not note.pins:
        return (FREE,) * len(note.pitches)
    return tuple(read_pin(pin, instrument, where) for pin in note.pins)


def neck_of(instrument: Instrument, level: Level, costs: Costs, *, harmonics: bool) -> Neck:
    """The neck, made once; a new one where the old holds too much."""
    neck = _neck(instrument, level, costs, harmonics)
    if sum(len(hands.hands) for hands in neck.hands) > MOST_HANDS:
        _neck.cache_clear()
        neck = _neck(instrument, level, costs, harmonics)
    return neck


@lru_cache(maxsize=16)
def _neck(instrument: Instrument, level: Level, costs: Costs, harmonics: bool) -> Neck:
    return Neck(instrument, level, costs, harmonics=harmonics)
