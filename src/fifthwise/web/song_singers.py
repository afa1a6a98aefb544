"""How a song suits the singers of the book: their keys as lines of a table, why, and who sang it in what."""

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from fifthwise.book import KeptSinger, Song, Sung
from fifthwise.page import printed_key
from fifthwise.stage import Call
from fifthwise.theory import Key, NoteName
from fifthwise.voice import KeyFit, strings_in_key
from fifthwise.web.days import day_words
from fifthwise.web.song_music import picture

__all__ = ["KeyLine", "Singing", "singing"]

BEST_KEYS = 3


@dataclass(frozen=True, slots=True)
class KeyLine:
    """One key of one singer.

    Attributes
    ----------
    first : bool
        Whether the line begins a singer's, and so names whom.
    current : bool
        Whether the song is shown in it.
    easy : int
        Of 100 beats, how many lie where the singer sings easily.
    strings : tuple of (NoteName, bool)
        The open strings, and whether each is in the key.
    """

    kept: KeptSinger
    fit: KeyFit
    first: bool
    current: bool
    easy: int
    strings: tuple[tuple[NoteName, bool], ...]

    @property
    def strings_said(self) -> str:
        """The open strings that are in the key, for those who hear the page."""
        return ", ".join(str(string) for string, inside in self.strings if inside) or "none"


@dataclass(frozen=True, slots=True)
class Singing:
    """What the page says of singers.

    Attributes
    ----------
    singer : KeptSinger or None
        Whose page it is.
    why : str
        One sentence, where it is a singer's.
    reasons : tuple of str
        What else there is to say for the key.
    picture : Markup or None
        Where it is a singer's, and the song has a tune.
    lines : tuple of KeyLine
        The singer's best keys and the best of all others.
    has_tune, timed : bool
        Whether the song has a tune, and one whose lengths are known.
    last : tuple of str
        When each singer sang it last, in words.
    """

    singer: KeptSinger | None
    why: str
    reasons: tuple[str, ...]
    picture: Markup | None
    lines: tuple[KeyLine, ...]
    has_tune: bool
    timed: bool
    last: tuple[str, ...]

    @property
    def best(self) -> KeyLine | None:
        """The line that stands first."""
        return self.lines[0] if self.lines else None


def singing(
    found: Song,
    call: Call,
    singer: KeptSinger | None,
    everyone: tuple[KeptSinger, ...],
    last: tuple[Sung, ...],
) -> Singing:
    """Bring a song in its key and the singers of the book together.

    Parameters
    ----------
    call : Call
        With the rankings of all of them.
    singer : KeptSinger or None
        Whose page it is.
    """
    fit = call.fit
    return Singing(
        singer,
        _why(call) if singer else "",
        fit.reasons[1:] if fit else (),
        picture(found.text, singer.singer, fit) if singer and fit else None,
        tuple(_lines(call, singer, everyone)),
        call.tune is not None,
        call.tune is not None and call.tune.timed,
        tuple(map(_told, last)),
    )


def _told(sung: Sung) -> str:
    return f"{sung.singer_name} sang it in {printed_key(sung.key)} on {day_words(sung.on)}"


def _why(call: Call) -> str:
    """Why the key suits; where another was called, that it was, and what would suit best."""
    assert call.singer is not None
    best = call.fits[call.singer.name][:1]
    return call.fit.reasons[0] if call.fit and call.fit in best else call.why


def _lines(call: Call, singer: KeptSinger | None, everyone: tuple[KeptSinger, ...]) -> Iterator[KeyLine]:
    key = call.chart.key
    if singer:
        yield from _own_lines(singer, call.fits[singer.singer.name], key)
    for other in everyone:
        fits = call.fits[other.singer.name]
        if fits and other != singer:
            yield _line(other, fits[0], key, first=True)


def _own_lines(singer: KeptSinger, fits: tuple[KeyFit, ...], key: Key) -> Iterator[KeyLine]:
    """The best keys, and the current one after them where it is none of these."""
    shown = [fit for place, fit in enumerate(fits) if place < BEST_KEYS or _sounds_as(fit.key, key)]
    for place, fit in enumerate(shown):
        yield _line(singer, fit, key, first=place == 0)


def _line(kept: KeptSinger, fit: KeyFit, key: Key, *, first: bool) -> KeyLine:
    easy = round(100 * fit.sitting.in_comfort)
    return KeyLine(kept, fit, first, _sounds_as(fit.key, key), easy, strings_in_key(fit.key))


def _sounds_as(one: Key, other: Key) -> bool:
    return one.tonic.pitch_class == other.tonic.pitch_class
