"""A chord as notes to be played: its tones close about middle C, its bass below.

Common practice of keyboard comping, no source.
"""

from collections.abc import Iterator

from fifthwise.theory import Interval, LetterChord, quality_tones

__all__ = ["voiced"]

SEMITONES = 12
LOWEST, LOWEST_BASS = 54, 36  # F#3, so that the octave lies about middle C; and C2
MOST_TONES = 4
FIFTH, THIRD, ELEVENTH = Interval(1, 0), Interval(4, -2), Interval(-1, 2)


def voiced(chord: LetterChord) -> tuple[int, ...]:
    """MIDI numbers, low to high; of more than four tones the fifth, then an 11 over a third stay out."""
    tones = list(quality_tones(chord.quality))
    for tone in _spared(tones):
        if len(tones) > MOST_TONES:
            tones.remove(tone)
    root = chord.root.fifths
    bass = LOWEST_BASS + _above(LOWEST_BASS, root if chord.bass is None else chord.bass.fifths)
    return (bass, *sorted({LOWEST + _above(LOWEST, root + tone.fifths) for tone in tones}))


def _spared(tones: list[Interval]) -> Iterator[Interval]:
    if FIFTH in tones:
        yield FIFTH
    if ELEVENTH in tones and THIRD in tones:
        yield ELEVENTH


def _above(low: int, fifths: int) -> int:
    """Semitones from a MIDI number up to the next note of a name."""
    return (fifths * 7 - low) % SEMITONES
