"""Where the unmarked 1 of a tune lies."""

from fifthwise.chart.model import Chart
from fifthwise.theory import Key, SpelledPitch, nearest_interval

__all__ = ["one_pitch"]

SEMITONES = 12


def one_pitch(chart: Chart, key: Key, octave: int) -> SpelledPitch:
    """The unmarked 1 of a key in the song, where the home key's lies in ``octave``.

    After a change of key it is the one nearest to the home key's, up at a tritone.
    """
    home = SpelledPitch(chart.numbering.one(chart.key).fifths, octave)
    one = SpelledPitch(chart.numbering.one(key).fifths, octave)
    lift = nearest_interval(one.fifths - home.fifths).semitones
    return SpelledPitch(one.fifths, octave + (home.midi + lift - one.midi) // SEMITONES)
