"""Distances, lengths and shares as musicians say them."""

from fractions import Fraction

__all__ = ["beats_text", "count_text", "share_text", "step_text", "times_text"]

STEPS = (
    "nothing",
    "a half step",
    "a whole step",
    "a minor third",
    "a major third",
    "a fourth",
    "a tritone",
    "a fifth",
    "a minor sixth",
    "a major sixth",
    "a minor seventh",
    "a major seventh",
)
SHARES = (
    (Fraction(1), "All"),
    (Fraction(9, 10), "Nine tenths"),
    (Fraction(4, 5), "Four fifths"),
    (Fraction(3, 4), "Three quarters"),
)
TIMES = ("never", "once", "twice")
COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def step_text(semitones: int) -> str:
    """A distance: ``a whole step``, ``an octave and a fourth``, ``2 octaves``."""
    octaves, rest = divmod(semitones, 12)
    if not octaves:
        return STEPS[rest]
    head = "an octave" if octaves == 1 else f"{count_text(octaves)} octaves"
    return f"{head} and {STEPS[rest]}" if rest else head


def beats_text(beats: Fraction) -> str:
    """A length: ``half a beat``, ``1 beat``, ``2.5 beats``, ``about 1.3 beats``."""
    if beats == Fraction(1, 2):
        return "half a beat"
    shown = f"{float(beats):.1f}".removesuffix(".0")
    about = "" if Fraction(shown) == beats else "about "
    if shown == "0":
        return "less than a tenth of a beat"
    return f"{about}{shown} {'beat' if shown == '1' else 'beats'}"


def share_text(share: Fraction) -> str:
    """The largest simple share, three quarters or more, that is reached."""
    return next((text for least, text in SHARES if share >= least), SHARES[-1][1])


def times_text(count: int) -> str:
    """How often: ``once``, ``twice``, ``6 times``."""
    return TIMES[count] if count < len(TIMES) else f"{count} times"


def count_text(count: int) -> str:
    """A number of things: in words below ten."""
    return COUNTS[count] if count < len(COUNTS) else str(count)
