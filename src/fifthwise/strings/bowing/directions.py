"""Down or up: the direction of each note's bow by the rule of the down-bow.

The rules are common practice, no source:

- a bar that begins with a new note begins down; a pickup ends up;
- a slur keeps one bow; every other note turns it;
- a note after a silence is down on a beat and up off it, since the bow is free;
- where bows would come round to a down-bow just before a bar that begins down, the last one of the bar is
  hooked, up after up; a bar with one bow alone cannot, so the bow is lifted and retaken, down after down.
"""

from collections.abc import Sequence
from fractions import Fraction

from fifthwise.strings.bowing.bar import BarNote, BowChange, BowDirection, BowedNote, check_bars
from fifthwise.strings.bowing.groups import group_starts
from fifthwise.theory import Metre

__all__ = ["bow_directions"]

OTHER: dict[BowDirection, BowDirection] = {"down": "up", "up": "down"}


def bow_directions(
    bars: Sequence[Sequence[BarNote]], metre: Metre, *, pickup: bool = False, down_first: bool = True
) -> tuple[tuple[BowedNote, ...], ...]:
    """Give each note its bow.

    Parameters
    ----------
    bars : sequence of sequences of BarNote
        Bars one after another, each in the order of its notes.
    metre : Metre
        Of all of them.
    pickup : bool
        Whether the first bar is a pickup, which stands at the end of its bar.
    down_first : bool
        Whether a bar begins down; otherwise the bow comes as it comes, and only the first note, or the
        pickup, is set.

    Raises
    ------
    BarFault
        Notes overlap, leave their bar, or a slur has no note to come from; says which.
    """
    check_bars(bars, metre)
    bow = _Bow(metre, down_first)
    done: list[list[BowedNote]] = []
    for place, bar in enumerate(bars):
        is_pickup = pickup and place == 0
        if down_first and done and _starts_new(bar) and _hook(done[-1], metre):
            bow.last = "up"
        bow.begin_bar(_pickup_start(bar) if is_pickup else None)
        done.append([bow.play(note) for note in bar])
    return tuple(map(tuple, done))


class _Bow:
    """The bow on its way through the bars."""

    def __init__(self, metre: Metre, down_first: bool) -> None:
        self.metre, self.down_first = metre, down_first
        self.starts = frozenset(group_starts(metre))
        self.last: BowDirection | None = None
        self.reached: Fraction | None = None  # where the note before ended, in this bar; None after a silence
        self.pickup: BowDirection | None = None

    def begin_bar(self, pickup: BowDirection | None) -> None:
        self.pickup = pickup
        self.reached = Fraction(0) if self.reached == self.metre.length else None

    def play(self, note: BarNote) -> BowedNote:
        if note.rest:
            return BowedNote(note, None, None)
        before = self.last
        if not note.slurred:
            self.last = self._direction(note)
        self.reached = note.onset + note.length
        return BowedNote(note, self.last, "slur" if note.slurred else _change(before, self.last))

    def _direction(self, note: BarNote) -> BowDirection:
        by_place: BowDirection = "down" if self._is_strong(note) else "up"
        if self.last is None:
            return self.pickup or by_place
        is_set = note.onset == 0 or note.onset != self.reached
        return by_place if self.down_first and self.pickup is None and is_set else OTHER[self.last]

    def _is_strong(self, note: BarNote) -> bool:
        on_beat = not self.metre.groups and note.onset % self.metre.beat == 0
        return on_beat or note.onset in self.starts


def _change(before: BowDirection | None, now: BowDirection | None) -> BowChange:
    if before is None:
        return "first"
    return "turn" if before != now else "retake"


def _starts_new(bar: Sequence[BarNote]) -> bool:
    return bool(bar) and bar[0].onset == 0 and not (bar[0].rest or bar[0].slurred)


def _pickup_start(bar: Sequence[BarNote]) -> BowDirection:
    """The first bow of a pickup, so that its last one is up."""
    bows = sum(not (note.rest or note.slurred) for note in bar)
    return "up" if bows % 2 else "down"


def _hook(bar: list[BowedNote], metre: Metre) -> bool:
    """Turn the last bow of a bar up where it came down after an up-bow and runs into the next bar."""
    begins = [place for place, bowed in enumerate(bar) if bowed.direction and bowed.change != "slur"]
    last = begins[-1] if begins else 0
    if last == 0 or bar[last].direction == "up" or bar[last - 1].direction != "up":
        return False
    if not _runs_on([bowed.note for bowed in bar[last - 1 :]], metre):
        return False
    bar[last:] = [BowedNote(bowed.note, "up", bowed.change) for bowed in bar[last:]]
    bar[last] = BowedNote(bar[last].note, "up", "hooked")
    return True


def _runs_on(notes: Sequence[BarNote], metre: Metre) -> bool:
    """Whether they follow each other without a silence up to the bar's end."""
    ends = [note.onset + note.length for note in notes]
    starts = [note.onset for note in notes[1:]]
    return not any(note.rest for note in notes) and [*starts, metre.length] == ends
