import time
from concurrent.futures import ThreadPoolExecutor
from fractions import Fraction

from fifthwise.strings import instrument_of
from fifthwise.strings.fingering import COSTS, LineNote
from fifthwise.strings.fingering import neck as neck_module
from fifthwise.strings.fingering.neck import Neck
from fifthwise.theory import SpelledPitch


class Slow(list):
    """A list that lets another thread go first, before and after it takes something in."""

    def append(self, each):
        """Wait, take it in, wait."""
        time.sleep(0.002)
        super().append(each)
        time.sleep(0.002)


def number(neck, pitch):
    """The number of the hands that play a pitch."""
    note = LineNote((pitch,), Fraction(0), Fraction(1))
    return neck.number((note,), long=False, where="")


def test_searches_at_one_time_keep_their_hands_apart():
    """Many threads ask one neck for the hands of notes, and each gets those of its note."""
    neck = Neck(instrument_of("violin"), "first", COSTS, harmonics=False)
    neck.hands = Slow()
    pitches = [SpelledPitch(fifths, octave) for fifths in range(-2, 6) for octave in (4, 5)]
    with ThreadPoolExecutor(4) as pool:
        numbers = list(pool.map(lambda pitch: number(neck, pitch), pitches))
    for pitch, found in zip(pitches, numbers, strict=True):
        assert set(neck.hands[found].sounds.ravel()) <= {pitch.midi}
        assert number(neck, pitch) == found


def test_moves_are_kept_up_to_a_number(monkeypatch):
    """A neck that has grown full begins anew, and answers as before."""
    monkeypatch.setattr(neck_module, "MOST_MOVES", 2)
    neck = Neck(instrument_of("violin"), "first", COSTS, harmonics=False)
    at = [number(neck, SpelledPitch(fifths, 4)) for fifths in (1, 2, 3)]
    before = neck.moves(at[0], at[1]).plain
    for one in at:
        for other in at:
            neck.moves(one, other)
    assert (neck.moves(at[0], at[1]).plain == before).all()
