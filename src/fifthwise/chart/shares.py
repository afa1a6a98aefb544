"""How long each token of a bar lasts: evenly shared, or a felt beat each."""

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from fifthwise.theory import Metre

__all__ = ["Misfit", "beat_lengths", "check_parts", "counted", "pickup_lengths", "shared_lengths"]

# The finest common division of a beat: fives beside sixteenths need 20, and nobody counts more than this.
MOST_PARTS = 96


class Misfit(Exception):
    """Tokens that do not fill their bar.

    Attributes
    ----------
    what, fix : str
        As in a fault.
    mends : tuple of str
        The bar's text as it may have been meant.
    """

    def __init__(self, what: str, fix: str, mends: tuple[str, ...] = ()) -> None:
        super().__init__(what, fix)
        self.what, self.fix, self.mends = what, fix, mends


def shared_lengths(metre: Metre, words: tuple[str, ...]) -> tuple[Fraction, ...]:
    """Share a bar among chords that have no beats of their own.

    Returns
    -------
    tuple of Fraction
        Quarters for each word.

    Raises
    ------
    Misfit
        The chords do not get whole felt beats each.
    """
    count = len(words)
    if count == len(metre.groups):
        return tuple(Fraction(group, 2) for group in metre.groups)
    share = metre.length / count
    if (share / metre.share).denominator == 1:
        return (share,) * count
    beats = metre.beats
    what = f"{count} chords cannot share {counted(beats, 'beat')} of {metre} evenly"
    if count > 2 * beats:
        raise Misfit(what, "Part the bars with '|'")
    shown = fill(words, beats)
    raise Misfit(what, f"Say how long each lasts, as in '{shown}'", (shown,))


def fill(words: tuple[str, ...], beats: int) -> str:
    """Write words as one token a felt beat: the first held longer, or the last ones grouped."""
    if len(words) <= beats:
        return " ".join((words[0], *["/"] * (beats - len(words)), *words[1:]))
    alone, together = words[: beats - 1], words[beats - 1 :]
    return " ".join((*alone, f"({' '.join(together)})"))


def beat_lengths(metre: Metre, words: tuple[str, ...]) -> tuple[Fraction, ...]:
    """Give each token one felt beat.

    Raises
    ------
    Misfit
        They are more or fewer than the bar's beats.
    """
    beats = metre.beats
    if len(words) != beats:
        raise Misfit(*_wrong_count(len(words), beats, str(metre), words))
    return (metre.beat,) * beats


def _wrong_count(
    found: int, beats: int, metre: str, words: tuple[str, ...]
) -> tuple[str, str, tuple[str, ...]]:
    what = f"{found} tokens for the {counted(beats, 'beat')} of {metre}"
    if found < beats:
        short = beats - found
        shown = " ".join((*words, *["/"] * short))
        return (
            what,
            f"Each token is one felt beat here; {counted(short, 'beat')} missing, as in '{shown}'",
            (shown,),
        )
    return what, f"Each token is one felt beat here; leave out {found - beats}, or group with ( )", ()


def pickup_lengths(metre: Metre, beats: Fraction, words: tuple[str, ...]) -> tuple[Fraction, ...]:
    """Give the tokens of a pickup their lengths; with a fraction, the first lasts the fraction.

    Raises
    ------
    Misfit
        They do not fill the pickup.
    """
    whole, part = int(beats), beats - int(beats)
    if len(words) == 1:
        return (beats * metre.beat,)
    if part == 0 and not any(w in ("/", "0") or w.startswith("(") for w in words):
        share = beats * metre.beat / len(words)
        if (share / metre.share).denominator == 1:
            return (share,) * len(words)
    needed = whole + (1 if part else 0)
    if len(words) != needed:
        raise Misfit(*_wrong_count(len(words), needed, "the pickup", words))
    first = (part * metre.beat,) if part else ()
    return first + (metre.beat,) * whole


def check_parts(beat: Fraction, lengths: Sequence[Fraction]) -> None:
    """Refuse groups whose parts have no common part that anyone could count.

    Raises
    ------
    Misfit
        The beat would be divided into more than ``MOST_PARTS``.
    """
    parts = lcm(*((length / beat).denominator for length in lengths))
    if parts > MOST_PARTS:
        what = f"the groups divide a beat into {parts} parts"
        raise Misfit(what, f"Divide it into {MOST_PARTS} at most")


def counted(count: int | Fraction, thing: str) -> str:
    """Say how many: ``1 beat``, ``3/2 beats``."""
    return f"{count} {thing}{'' if count == 1 else 's'}"
