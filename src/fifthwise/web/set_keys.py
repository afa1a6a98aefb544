"""The keys that a song of a set may be called in, best first, each with how it fits in plain words."""

from collections.abc import Iterator
from dataclasses import dataclass

from fifthwise.page import printed_key
from fifthwise.stage import Call
from fifthwise.theory import Key
from fifthwise.voice import KeyFit
from fifthwise.web.key_row import key_row

__all__ = ["KeyChoice", "fit_words", "key_choices"]


@dataclass(frozen=True, slots=True)
class KeyChoice:
    """One key to choose.

    Attributes
    ----------
    value : str
        The key as it is called; empty leaves the choice to us.
    """

    value: str
    words: str
    chosen: bool


def key_choices(call: Call, written: Key, *, bad: bool) -> tuple[KeyChoice, ...]:
    """Every key of a song's mode: what we choose, then best first, or by fifths where nobody ranks them.

    Parameters
    ----------
    call : Call
        With the key that was called, as written.
    written : Key
        The chart's own.
    bad : bool
        Whether what was called is no key of this song.
    """
    called = (call.song.key or "") if not bad else ""
    found = [_ours(call, written, chosen=not call.song.key)]
    if bad:
        found.append(KeyChoice(call.song.key or "", f"{call.song.key}, no key of this song", True))
    key = call.chart.key if called else None
    for each, words in _ranked(call) or _by_fifths(written):
        chosen = each == key
        found.append(KeyChoice(called if chosen else each.short, words, chosen))
    if key and not any(choice.chosen for choice in found):
        found.append(KeyChoice(called, printed_key(key), True))
    return tuple(found)


def _ours(call: Call, written: Key, *, chosen: bool) -> KeyChoice:
    ranking = call.fits.get(call.singer.name, ()) if call.singer else ()
    if call.singer and ranking:
        words = f"Best for {call.singer.name}: {printed_key(ranking[0].key)}"
    else:
        words = f"As written: {printed_key(written)}"
    return KeyChoice("", words, chosen)


def _ranked(call: Call) -> list[tuple[Key, str]]:
    ranking = call.fits.get(call.singer.name, ()) if call.singer else ()
    return [pair for fit in ranking for pair in _named(fit)]


def _named(fit: KeyFit) -> Iterator[tuple[Key, str]]:
    yield fit.key, f"{printed_key(fit.key)}, {fit_words(fit)}"
    if fit.also:
        yield fit.also, f"{printed_key(fit.also)}, sounds as {printed_key(fit.key)}"


def _by_fifths(written: Key) -> list[tuple[Key, str]]:
    return [(place.key, printed_key(place.key)) for place in key_row(written, written, {})]


def fit_words(fit: KeyFit) -> str:
    """How a key fits, in a few words: out of reach, or how much of it is easy."""
    above, below = -fit.sitting.upper_reserve, -fit.sitting.lower_reserve
    ends = [
        f"{_steps(above)} too high" if above > 0 else "",
        f"{_steps(below)} too low" if below > 0 else "",
    ]
    told = " and ".join(end for end in ends if end)
    if told or fit.sitting.cycle_dose is None:
        return told or "in reach"
    return f"easy for {round(100 * fit.sitting.in_comfort)} of 100 beats"


def _steps(count: int) -> str:
    return "a half step" if count == 1 else f"{count} half steps"
