"""The bars of one voice, made as its bar lines come."""

from fractions import Fraction

from fifthwise.exchange.abc.bar_lines import BarLine
from fifthwise.exchange.abc.raw import RawBar
from fifthwise.exchange.errors import TooLarge
from fifthwise.exchange.road import Road
from fifthwise.theory import Key, Metre

__all__ = ["BarMaker", "Room"]


class Room:
    """How many bars and notes may still be read before a file is too large."""

    def __init__(self, bars: int, notes: int, where: str) -> None:
        self.bars, self.notes, self.where = bars, notes, where

    def take(self, bars: int, notes: int) -> None:
        """Take room for a bar's notes.

        Raises
        ------
        TooLarge
            There is none left.
        """
        self.bars -= bars
        self.notes -= notes
        if self.bars < 0 or self.notes < 0:
            raise TooLarge("the music is longer than is read", self.where, "Bring it in parts")


class BarMaker:
    """Makes bars.

    Attributes
    ----------
    bar : RawBar
        The one that is being read.
    key, metre
        What holds from the next bar on.
    coming : Road
        What is said of the next bar while this one is read.
    """

    def __init__(self, key: Key, metre: Metre | None, room: Room) -> None:
        self.key, self.metre, self.room = key, metre, room
        self.bars: list[RawBar] = []
        self.bar = RawBar(key, metre)
        self.coming: Road | None = None
        self.in_ending = False

    def hold(self, key: Key, metre: Metre | None) -> None:
        """A key and a metre from here on: in this bar, where it has not begun."""
        self.key, self.metre = key, metre
        if not self.bar.length:
            self.bar.key, self.bar.metre = key, metre

    @property
    def road(self) -> Road:
        """Where to note what holds from here on: at this bar, or where it has begun at the next."""
        if not self.bar.length:
            return self.bar.road
        self.coming = self.coming or Road()
        return self.coming

    def end(self, line: BarLine) -> None:
        """A bar line; several in a row are one."""
        if self.bar.length:
            self._close()
        elif self.bars:
            self._give_back(self.bars[-1])
        if self.bars and not self.bar.road.endings:
            self._end_repeats(self.bars[-1].road, line)
        road = self.bar.road
        road.repeat_start = road.repeat_start or line.opens
        if line.endings:
            road.endings = line.endings
            self.in_ending = True

    def rests(self, count: int) -> None:
        """Bars of rest; the last one waits for its bar line."""
        for _ in range(count):
            if self.bar.length:
                self._close()
            self.bar.length = self.metre.length if self.metre else Fraction(4)

    def finish(self) -> list[RawBar]:
        """The bars, when the voice has ended."""
        if self.bar.length:
            self._close()
        elif self.bars:
            self._give_back(self.bars[-1])
            self.bars[-1].words += self.bar.words
        if self.bars and self.in_ending:
            self.bars[-1].road.ends_ending = True
        return self.bars

    def _close(self) -> None:
        bar = self.bar
        self.room.take(int(bar.length) if bar.is_long else 1, len(bar.notes))  # a long one will be parted
        self.bars.append(self.bar)
        self.bar = RawBar(self.key, self.metre, road=self.coming or Road())
        self.coming = None

    def _give_back(self, last: RawBar) -> None:
        """What is said behind a bar's end, of where to go from there, is said of it."""
        road, said = last.road, self.bar.road
        road.jump, road.fine, road.to_coda = (
            road.jump or said.jump,
            road.fine or said.fine,
            road.to_coda or said.to_coda,
        )
        said.jump, said.fine, said.to_coda = "", False, False

    def _end_repeats(self, road: Road, line: BarLine) -> None:
        road.repeat_end = max(road.repeat_end, line.times)
        if self.in_ending and (line.closes or line.endings):
            road.ends_ending, self.in_ending = True, False
