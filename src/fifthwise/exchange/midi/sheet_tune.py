"""The tune of the chosen part: on the grid, in one line, with its words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.exchange.midi.bars import Span
from fifthwise.exchange.midi.grid import GridNote, Moved, on_grid
from fifthwise.exchange.midi.line import TuneNote, line_of, without_graces
from fifthwise.exchange.midi.raw import RawPart, RawSong
from fifthwise.exchange.midi.words import syllables_of

__all__ = ["NO_TUNE", "Tune", "tune_of"]


@dataclass(frozen=True, slots=True)
class Tune:
    """A tune in quarters.

    Attributes
    ----------
    under : int
        Notes left out since they lie under it.
    lost : int
        Syllables that fall on no note.
    """

    notes: Sequence[TuneNote]
    syllables: Mapping[int, str]
    moved: Moved
    under: int = 0
    lost: int = 0


NO_TUNE = Tune((), {}, Moved(0))


def tune_of(song: RawSong, part: RawPart, spans: Sequence[Span]) -> Tune:
    """Make a tune of a part's notes."""
    kept, graces = without_graces(part.notes, song.ppq)
    kept.sort(key=lambda note: (note.start, note.midi))
    placed, moved = on_grid(kept, song.ppq, spans)
    leads: dict[Fraction, tuple[int, ...]] = {
        note.start: graces[raw.start] for raw, note in zip(kept, placed, strict=True) if raw.start in graces
    }
    notes, under = line_of(_sounding(placed), leads)
    syllables, lost = syllables_of(song, notes)
    return Tune(notes, syllables, moved, under, lost)


def _sounding(notes: Sequence[GridNote]) -> list[GridNote]:
    return [note for note in notes if note.end > note.start]
