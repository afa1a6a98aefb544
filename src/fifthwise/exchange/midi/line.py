"""One line of tune out of a part's notes: the highest that begin, none over another, quick ones as graces.

Of notes that begin together the highest is the tune, and what begins below a note that goes on is under it
(the "skyline" of Uitdenbogerd and Zobel, ACM Multimedia 1998 and 1999). Two notes that begin and end together
are a double stop where the part never has more.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from fifthwise.exchange.midi.grid import GridNote
from fifthwise.exchange.midi.raw import RawNote

__all__ = ["TuneNote", "line_of", "without_graces"]

THIRTY_SECOND = 8  # parts of a quarter; what is shorter and leads straight into a note is a grace note
MOST_GRACES = 3
DOUBLE = 2
# A lower note takes over from one that goes on for less than half of its own length.
TAKES_OVER = 2


@dataclass(frozen=True, slots=True)
class TuneNote:
    """A note of the tune, in quarters; ``midis`` and ``graces`` low to high and in order."""

    start: Fraction
    end: Fraction
    midis: tuple[int, ...]
    graces: tuple[int, ...] = ()


def without_graces(notes: Sequence[RawNote], ppq: int) -> tuple[list[RawNote], dict[int, tuple[int, ...]]]:
    """Notes without the quick ones that lead into another, and those by the tick at which that begins."""
    kept: list[RawNote] = []
    graces: dict[int, tuple[int, ...]] = {}
    run: list[RawNote] = []
    for note in notes:
        if run and abs(note.start - run[-1].end) > 1:
            kept += run
            run = []
        if (note.end - note.start + 1) * THIRTY_SECOND < ppq:
            run.append(note)
            continue
        if 0 < len(run) <= MOST_GRACES:
            graces[note.start] = tuple(each.midi for each in run)
            kept = _given_back(kept, run[0].start, note.start)
        else:
            kept += run
        run = []
        kept.append(note)
    kept += run
    return [note for note in kept if note.end > note.start], graces


def _given_back(kept: list[RawNote], taken: int, beat: int) -> list[RawNote]:
    """The note before grace notes lasts to the beat again, as it is written."""
    if kept and abs(kept[-1].end - taken) <= 1:
        kept[-1] = replace(kept[-1], end=beat)
    return kept


def line_of(notes: Sequence[GridNote], graces: dict[Fraction, tuple[int, ...]]) -> tuple[list[TuneNote], int]:
    """The tune, and how many notes under it were left out."""
    doubles = _most_together(notes) <= DOUBLE
    found: list[TuneNote] = []
    left = 0
    for start, group in groupby(sorted(notes, key=lambda n: (n.start, -n.midi)), key=lambda n: n.start):
        together = list(group)
        note = _kept(together, graces.get(start, ()), doubles=doubles)
        left += len({each.midi for each in together}) - len(note.midis)
        if found and found[-1].end > start:
            if _is_under(note, found[-1]):
                left += len(note.midis)
                continue
            found[-1] = replace(found[-1], end=start)
        found.append(note)
    return found, left


def _kept(together: Sequence[GridNote], graces: tuple[int, ...], *, doubles: bool) -> TuneNote:
    top = together[0]
    pair = [each for each in together[1:] if each.end == top.end and each.midi < top.midi]
    midis = (pair[0].midi, top.midi) if doubles and pair else (top.midi,)
    return TuneNote(top.start, max(each.end for each in together if each.midi == top.midi), midis, graces)


def _is_under(note: TuneNote, held: TuneNote) -> bool:
    goes_on = held.end - note.start
    return note.midis[-1] < held.midis[-1] and goes_on * TAKES_OVER >= note.end - note.start


def _most_together(notes: Sequence[GridNote]) -> int:
    """The most notes that sound at once."""
    changes = sorted(_changes(notes))
    most = now = 0
    for _, by in changes:
        now += by
        most = max(most, now)
    return most


def _changes(notes: Sequence[GridNote]) -> Iterator[tuple[Fraction, int]]:
    for note in notes:
        yield note.start, 1
        yield note.end, -1
