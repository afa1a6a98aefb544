"""How long each token of a bar lasts: evenly shared, or a felt beat each."""

from fractions import Fraction

from fifthwise.theory import Metre

__all__ = ["Misfit", "beat_lengths", "pickup_lengths", "shared_lengths"]


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
    what = f"{count} chords cannot share {_beats(beats)} of {metre} evenly"
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
    what = f"{found} tokens for the {_beats(beats)} of {metre}"
    if found < beats:
        short = beats - found
        shown = " ".join((*words, *["/"] * short))
        return what, f"Each token is one felt beat here; {_beats(short)} missing, as in '{shown}'", (shown,)
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
        share = beats / len(words)
        if share.denominator == 1:
            return (share * metre.beat,) * len(words)
    needed = whole + (1 if part else 0)
    if len(words) != needed:
        raise Misfit(*_wrong_count(len(words), needed, "the pickup", words))
    first = (part * metre.beat,) if part else ()
    return first + (metre.beat,) * whole


def _beats(count: int) -> str:
    return "1 beat" if count == 1 else f"{count} beats"
