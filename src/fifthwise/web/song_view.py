"""A song as its page shows it: a wish, the song and the people of the book brought together."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from markupsafe import Markup

from fifthwise.book import (
    Book,
    KeptPlayer,
    KeptSinger,
    SetRow,
    Song,
    SongRow,
    last_sung,
    player,
    players,
    sets,
    singer,
    singers,
    song,
)
from fifthwise.evening import Player, part_names, part_of
from fifthwise.page import PagePart, PageView, Paper
from fifthwise.stage import Call, call_song, key_as_called, player_view
from fifthwise.theory import Key, same_sound_keys
from fifthwise.web.board_panel import BoardPanel, board_panel
from fifthwise.web.key_row import KeyPlace, key_row, semitone_steps
from fifthwise.web.song_music import Drawn, drawn, has_tune, has_words, parsed, places, ranking, sung
from fifthwise.web.song_singers import Singing, singing
from fifthwise.web.song_wish import MOST_CAPO, Wish, address, fields
from fifthwise.web.staff_panel import StaffPanel
from fifthwise.web.unprinted import Unprinted, unprinted_song

__all__ = ["SongView", "called", "page_view", "song_view"]

PARTS = part_names()


@dataclass(frozen=True, slots=True)
class SongView:
    """A song as it is asked for.

    Attributes
    ----------
    at : callable
        The address of this page with one thing changed, as `address` makes it.
    call : Call
        The song in its key.
    page : PageView
        What the chart shows, and to whom.
    keys : tuple of KeyPlace
        The key row.
    down, up : Key
        A semitone away.
    same : Key or None
        Another name of the current key.
    player : Player or None
        Whose page it is.
    sets : tuple of SetRow
        Those that it can be put into.
    board : BoardPanel
        The fingerboard beside the chart.
    unprinted : tuple of Unprinted
        What print leaves out of it.
    text : str
        As it is kept.
    """

    row: SongRow
    wish: Wish
    at: Callable[..., str]
    call: Call
    page: PageView
    drawn: Drawn
    keys: tuple[KeyPlace, ...]
    down: Key
    up: Key
    same: Key | None
    singing: Singing
    player: Player | None
    players: tuple[KeptPlayer, ...]
    sets: tuple[SetRow, ...]
    board: BoardPanel
    unprinted: tuple[Unprinted, ...]
    text: str
    parts: tuple[str, ...] = PARTS
    frets: range = range(MOST_CAPO + 1)

    @property
    def key(self) -> Key:
        """The key that sounds."""
        return self.call.chart.key

    @property
    def staff(self) -> StaffPanel:
        """The tune on a staff."""
        key = self.drawn.sheet.key
        return StaffPanel(self.row.id, self.wish, self.text, self.key.tonic, self.page, key)

    @property
    def chart_html(self) -> Markup:
        """The chart, with the place that was touched marked in it."""
        slots = (f'data-at="{at}"' for at in self.board.marks)
        slot = next((slot for slot in slots if slot in self.drawn.html), "")
        return Markup(str(self.drawn.html).replace(slot, f"{slot} data-touched")) if slot else self.drawn.html

    @property
    def form(self) -> dict[str, str]:
        """What a form on this page sends along."""
        return fields(self.wish)

    @property
    def sung_form(self) -> dict[str, str]:
        """The same, with the key that is shown."""
        return fields(replace(self.wish, key=self.key.short))

    @property
    def has_tune(self) -> bool:
        """Whether there is a tune to show under the bars."""
        return has_tune(self.call.chart)

    @property
    def has_words(self) -> bool:
        """Whether there are words to show under the bars."""
        return has_words(self.call.chart)

    def for_player(self, number: int | None) -> str:
        """The page for a player, or for everyone: the key stays, all else is the player's own."""
        return self.at(
            key=self.key.short,
            singer=None,
            player=number,
            show=None,
            part="",
            capo=None,
            tune=None,
            words=None,
        )

    def for_singer(self, number: int | None) -> str:
        """The page for a singer, in the key that suits."""
        return self.at(key="", singer=number, player=None)


def song_view(book: Book, song_id: int, wish: Wish) -> SongView:
    """A song put into a key and laid out.

    Raises
    ------
    NoSuchSong, NoSuchSinger, NoSuchPlayer
        The book has no such song, or nobody of that number.
    KeyFault
        It is no key of this song.
    """
    found = song(book, song_id)
    everyone = singers(book)
    whose = singer(book, wish.singer) if wish.singer else None
    plays = player(book, wish.player).player if wish.player else None
    call = called(found, wish, whose, everyone)
    view = page_view(wish, call, plays)
    key, written = call.chart.key, parsed(found.text).key
    best = {name: fits[0].key for name, fits in call.fits.items() if fits}
    down, up = semitone_steps(key)
    return SongView(
        found.row,
        wish,
        partial(address, found.row.id, wish),
        call,
        view,
        drawn(found.text, key.tonic, view, only=wish.only),
        key_row(key, written, best),
        down,
        up,
        next((other for other in same_sound_keys(key) if other != key), None),
        singing(found, call, whose, everyone, last_sung(book, song_id)),
        plays,
        players(book),
        sets(book),
        board_panel(found.row.id, wish, view.part, call.chart, places(found.text, key.tonic)),
        unprinted_song(found.text),
        found.text,
    )


def called(found: Song, wish: Wish, whose: KeptSinger | None, everyone: tuple[KeptSinger, ...]) -> Call:
    """The song in its key: what the address names, else what suits the singer, else as written."""
    chart = parsed(found.text)
    key = key_as_called(wish.key, chart) if wish.key else None
    fits = {each.singer.name: ranking(found.text, each.singer) for each in everyone}
    return call_song(chart, whose.singer if whose else None, key, sung(found.text), fits)


def page_view(wish: Wish, call: Call, plays: Player | None, paper: Paper = "a4") -> PageView:
    """What a page shows: the player's or the instrument's own way, then what the address says."""
    if wish.part:
        part = part_of(wish.part)
        plays = Player(plays.name if plays else "", part, show=part.show)
    sings = call.singer.name if call.singer else ""
    view = PageView(part=PagePart(names=(sings,)), singer=sings, paper=paper)
    if plays:
        view = player_view(plays, call, paper)
    if wish.capo is not None:
        view = replace(view, part=replace(view.part, capo=wish.capo))
    return replace(
        view,
        show=wish.show or view.show,
        tune=view.tune if wish.tune is None else wish.tune,
        words=view.words if wish.words is None else wish.words,
    )
