"""The octave that a tune stands in: where it is sung, unless the player could not read or reach it."""

from collections.abc import Sequence

from fifthwise.page.layout_view import Clef, PagePart
from fifthwise.strings import instrument_of
from fifthwise.theory import SpelledPitch

__all__ = ["best_shift", "shift_told"]

# The staff step, counted from C0 = 0, of each clef's lowest line.
LOWEST_LINE: dict[Clef, int] = {"treble": 30, "treble-8": 23, "alto": 24, "tenor": 22, "bass": 18}
LETTERS = "CDEFGAB"
HIGH = 8  # steps from the lowest line to the highest
READABLE = 5  # steps beyond either: two ledger lines and the space behind them
SHIFTS = (0, -1, 1, -2, 2, -3, 3)
WORDS = {1: "An octave", 2: "Two octaves", 3: "Three octaves"}
MOST_OUT = 8  # one note in so many may lie further out


def best_shift(pitches: Sequence[SpelledPitch], part: PagePart, *, floats: bool) -> int:
    """By how many octaves a tune is moved.

    Parameters
    ----------
    pitches : sequence of SpelledPitch
        As the part reads them.
    floats : bool
        Whether the chart names no octave, so that the best to read is taken.
    """
    if not pitches:
        return 0
    lowest = instrument_of(part.fingerboard).strings[0].midi + _read_above(part) if part.fingerboard else 0
    steps = [_step(pitch) - LOWEST_LINE[part.clef] for pitch in pitches]
    least = min(pitch.midi for pitch in pitches)

    def cost(shift: int) -> tuple[bool, int, int]:
        out = sum(_beyond(step + 7 * shift) for step in steps)
        return least + 12 * shift < lowest, out, abs(shift)

    far = sum(_beyond(step) > READABLE for step in steps)
    if not floats and least >= lowest and far * MOST_OUT <= len(steps):
        return 0
    return min(SHIFTS, key=cost)


def shift_told(shift: int) -> str:
    """How far a tune was moved, in words."""
    way = "higher" if shift > 0 else "lower"
    return f"{WORDS[abs(shift)]} {way} than it is sung"


def _read_above(part: PagePart) -> int:
    """Semitones from the sounding note up to the one that is read."""
    return part.written.semitones - part.capo - (12 if part.clef == "treble-8" else 0)


def _step(pitch: SpelledPitch) -> int:
    return LETTERS.index(pitch.name.letter) + 7 * pitch.octave


def _beyond(step: int) -> int:
    """Steps by which a note lies over or under the staff."""
    return max(-step - 1, step - HIGH - 1, 0)
