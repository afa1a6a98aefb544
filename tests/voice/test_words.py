from fractions import Fraction

import pytest

from fifthwise.voice.words import beats_text, share_text, step_text, times_text


@pytest.mark.parametrize(
    ("semitones", "words"),
    [
        (1, "a half step"),
        (2, "a whole step"),
        (7, "a fifth"),
        (12, "an octave"),
        (17, "an octave and a fourth"),
        (24, "two octaves"),
    ],
)
def test_distances_are_named_as_musicians_do(semitones, words):
    """Half and whole steps, then intervals, then octaves and what is over."""
    assert step_text(semitones) == words


@pytest.mark.parametrize(
    ("beats", "words"),
    [
        (Fraction(1, 2), "half a beat"),
        (Fraction(1), "1 beat"),
        (Fraction(5, 2), "2.5 beats"),
        (Fraction(12), "12 beats"),
        (Fraction(4, 3), "about 1.3 beats"),
        (Fraction(1, 3), "about 0.3 beats"),
        (Fraction(29, 30), "about 1 beat"),
        (Fraction(1, 32), "less than a tenth of a beat"),
    ],
)
def test_lengths_are_exact_or_say_about(beats, words):
    """A length that was rounded does not pass for exact."""
    assert beats_text(beats) == words


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (Fraction(1), "All"),
        (Fraction(99, 100), "Nine tenths"),
        (Fraction(17, 20), "Four fifths"),
        (Fraction(3, 4), "Three quarters"),
    ],
)
def test_a_share_is_rounded_down(share, words):
    """No more is said than is true."""
    assert share_text(share) == words


def test_how_often_is_counted_in_words_to_twice():
    """Once, twice, 3 times."""
    assert [times_text(n) for n in (1, 2, 3)] == ["once", "twice", "3 times"]
