"""The page *Set* as one value: the running order, the singers, what to look at, everyone's books."""

from dataclasses import dataclass
from itertools import accumulate
from urllib.parse import urlencode

from fifthwise.book import Book, KeptSet, KeptSetSong, evening_of, kept_set, players, singers
from fifthwise.chart import Chart
from fifthwise.page import printed_date
from fifthwise.stage import Call, OrderNotice
from fifthwise.theory import NoteName
from fifthwise.voice import strings_in_key
from fifthwise.web.set_changes import Twin, twins
from fifthwise.web.set_keys import KeyChoice, key_choices
from fifthwise.web.set_music import WHOLE, SetTonight, set_tonight
from fifthwise.web.set_people import Column, Stand, columns, stands

__all__ = ["SetLine", "SetView", "clock", "hours", "long_words", "set_view"]

MOST_COLUMNS = 6
MOST_REASONS = 3


@dataclass(frozen=True, slots=True)
class SetLine:
    """One row of the running order.

    Attributes
    ----------
    twin : Twin
        The song, the same wherever it is moved.
    starts : str
        From the beginning of the music.
    keys : tuple of KeyChoice
        To choose from.
    strings : tuple of (NoteName, bool)
        The open strings, and whether each is in the key.
    fault : OrderNotice or None
        The key that was called is no key of the song.
    looked : tuple of OrderNotice
        What to look at.
    """

    twin: Twin
    kept: KeptSetSong
    call: Call
    starts: str
    length: str
    keys: tuple[KeyChoice, ...]
    strings: tuple[tuple[NoteName, bool], ...]
    fault: OrderNotice | None
    looked: tuple[OrderNotice, ...]

    @property
    def address(self) -> str:
        """The song in tonight's key, for its singer."""
        singer = {"for": f"singer:{self.kept.singer_id}"} if self.kept.singer_id else {}
        return f"/songs/{self.kept.song_id}?" + urlencode(
            {"key": self.call.chart.key.short, **singer}, safe=":"
        )

    @property
    def reasons(self) -> tuple[str, ...]:
        """Why this key, beside the one sentence."""
        fit = self.call.fit
        told = fit.reasons if fit else ()
        return tuple(reason for reason in told if reason not in self.call.why)[: MOST_REASONS - 1]

    @property
    def strings_said(self) -> str:
        """The open strings that are in the key, for those who hear the page."""
        return ", ".join(str(string) for string, inside in self.strings if inside) or "none"


@dataclass(frozen=True, slots=True)
class SetView:
    """A set as its page shows it.

    Attributes
    ----------
    day : str
        Written out, where it is a date.
    singers : tuple of Column
        Those of this set; ``others`` are the rest of the book's.
    stands : tuple of Stand
        All players of the book.
    whole : tuple of OrderNotice
        What to look at in all of it.
    row : SetLine or None
        The row that was chosen.
    """

    kept: KeptSet
    day: str
    lines: tuple[SetLine, ...]
    total: str
    singers: tuple[Column, ...]
    others: tuple[Column, ...]
    stands: tuple[Stand, ...]
    whole: tuple[OrderNotice, ...]
    row: SetLine | None

    @property
    def people(self) -> tuple[str, ...]:
        """Who may count in: those who are there."""
        playing = [stand.kept.player.name for stand in self.stands if stand.here]
        return tuple(dict.fromkeys((*playing, *(column.name for column in self.singers))))

    @property
    def folded(self) -> bool:
        """Whether there are too many singers for columns, or none."""
        return not 0 < len(self.singers) <= MOST_COLUMNS

    @property
    def looked(self) -> tuple[SetLine, ...]:
        """The rows that have something to look at."""
        return tuple(line for line in self.lines if line.looked or line.fault)

    @property
    def things(self) -> int:
        """How many things there are to look at."""
        return len(self.whole) + sum(len(line.looked) + (line.fault is not None) for line in self.lines)


def set_view(book: Book, set_id: int, row: int = 0) -> SetView:
    """A set put together for its page.

    Raises
    ------
    NoSuchSet
        The book has no such set.
    """
    kept = kept_set(book, set_id)
    evening, charts = evening_of(book, set_id)
    music = set_tonight(evening, charts)
    lines = tuple(_lines(kept, music, charts))
    everyone, calls = singers(book), music.tonight.calls
    own = columns(everyone, kept.order, calls)
    there = {column.kept.id for column in own}
    return SetView(
        kept,
        printed_date(kept.order.date or ""),
        lines,
        long_words(sum(call.timeline.seconds for call in calls)),
        own,
        tuple(Column(each, False, 0, 0, (0, 0), (0, 0)) for each in everyone if each.id not in there),
        stands(players(book), kept.order),
        music.looked.get(WHOLE, ()),
        lines[row - 1] if 0 < row <= len(lines) else None,
    )


def _lines(kept: KeptSet, music: SetTonight, charts: dict[str, Chart]) -> list[SetLine]:
    calls = music.tonight.calls
    starts = accumulate((call.timeline.seconds for call in calls), initial=0.0)
    rows = zip(twins(kept.order.songs), kept.order.songs, calls, starts, strict=False)
    return [
        SetLine(
            twin,
            song,
            call,
            hours(start),
            clock(call.timeline.seconds),
            key_choices(call, charts[call.song.chart].key, bad=call.number in music.faults),
            strings_in_key(call.chart.key),
            music.faults.get(call.number),
            music.looked.get(call.number, ()),
        )
        for twin, song, call, start in rows
    ]


def clock(seconds: float) -> str:
    """A song's length: ``3:05``."""
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"


def hours(seconds: float) -> str:
    """When something starts, in hours and minutes: ``0:07``."""
    return f"{int(seconds) // 3600}:{int(seconds) // 60 % 60:02d}"


def long_words(seconds: float) -> str:
    """How long an evening is: ``42 minutes``, ``1 hour 5 minutes``."""
    length, minutes = divmod(round(seconds / 60), 60)
    told = [_counted(length, "hour")] if length else []
    return " ".join([*told, _counted(minutes, "minute")] if minutes or not told else told)


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
