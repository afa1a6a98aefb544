"""Made-up singers and tunes for the laws of the singer's key."""

from fractions import Fraction

from hypothesis import settings
from hypothesis import strategies as st

from fifthwise.theory import (
    MODES,
    Degree,
    Interval,
    Key,
    NoteName,
    SpelledPitch,
    degree_interval,
    read_degree,
)
from fifthwise.voice import Range, Singer, SungNote, SungTune, Weights

unhurried = settings(deadline=None)  # a busy machine is no fault of the law

BEATS = [Fraction(1, 3), Fraction(1, 2), Fraction(1), Fraction(3, 2), Fraction(2), Fraction(4)]


def pitch_at(midi):
    """A pitch that sounds at a MIDI note, spelled between Db and F#."""
    place = (7 * midi + 5) % 12 - 5
    return SpelledPitch(place, (midi - SpelledPitch(place, 0).midi) // 12)


def lift_interval(lift):
    """The interval that a lift of -5 to 6 semitones stands for, in its simplest spelling."""
    place = (7 * lift + 5) % 12 - 5
    return Interval(place, (lift - 7 * place) // 12)


def sung(degree, octave=0, beats=1, lift=0):
    """One sung note, its octave counted from the unmarked 1."""
    read = read_degree(degree)
    return SungNote(lift_interval(lift) + degree_interval(read, octave), Fraction(beats), read, lift)


@st.composite
def singers(draw):
    """Singers with a fifth of range or more, some with change-over notes."""
    low = draw(st.integers(36, 65))
    high = low + draw(st.integers(7, 38))
    easy_low = draw(st.integers(low, high))
    easy_high = draw(st.integers(easy_low, high))
    turns = sorted(draw(st.lists(st.integers(low, high), max_size=2)))
    usable, comfort = Range(pitch_at(low), pitch_at(high)), Range(pitch_at(easy_low), pitch_at(easy_high))
    return Singer("Maren", usable, comfort, tuple(map(pitch_at, turns)))


@st.composite
def sung_notes(draw):
    """Notes on diatonic and chromatic degrees over three octaves, in any key that then holds."""
    degree, lift = Degree(draw(st.integers(-6, 7))), draw(st.sampled_from([0, 0, 0, -5, -2, 1, 2, 6]))
    interval = lift_interval(lift) + degree_interval(degree, draw(st.integers(-1, 1)))
    return SungNote(interval, draw(st.sampled_from(BEATS)), degree, lift)


@st.composite
def sung_tunes(draw):
    """Tunes of one note and more, in any mode, some without known lengths."""
    mode = draw(st.sampled_from(sorted(MODES)))
    home = Key(NoteName(draw(st.integers(-7, 7)) - MODES[mode]), mode)
    written = draw(st.none() | st.integers(48, 72))
    tonic = None if written is None else SpelledPitch(home.tonic.fifths, written // 12 - 1)
    return SungTune(
        home,
        tuple(draw(st.lists(sung_notes(), min_size=1, max_size=12))),
        timed=draw(st.booleans()),
        written=tonic,
    )


def weights():
    """Tables of weights, none of them negative."""
    cost = st.floats(0.01, 10, allow_nan=False)
    return st.builds(
        Weights,
        below_usable=cost,
        above_usable=cost,
        below_comfort=cost,
        above_comfort=cost,
        turns=cost,
        upper=cost,
        lower=cost,
    )
