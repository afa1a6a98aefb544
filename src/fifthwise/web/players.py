"""The pages *Players*: who plays what, and how each one's page is to look."""

from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import (
    Book,
    KeptPlayer,
    add_player,
    find_songs,
    player,
    players,
    remove_player,
    save_player,
)
from fifthwise.evening import Part, Player, part_names, part_of
from fifthwise.web.answers import book_of, show
from fifthwise.web.person_forms import Reading, player_texts, read_player_form
from fifthwise.web.person_pages import PersonPages
from fifthwise.web.song_wish import Wish, address

__all__ = ["routes"]

PARTS = tuple(part_of(name) for name in part_names())
LEVEL_WORDS = {
    "first": "First position",
    "half": "Half and first position",
    "third": "Up to third position",
    "all": "Everywhere",
}
SHOW_WORDS = {"numbers": "Numbers", "letters": "Letters", "both": "Numbers and letters", "roman": "Roman"}
LABELS = {"name": "Name", "instrument": "Instrument", "level": "At home in", "show": "Shows", "capo": "Capo"}


def list_players(request: Request) -> Response:
    """All players."""
    book = book_of(request)
    context = {
        "players": players(book),
        "levels": LEVEL_WORDS,
        "shows": SHOW_WORDS,
        "page_of": _page_of(book),
    }
    return show(request, "players.html", context)


def _page_of(book: Book) -> Any:
    """Gives the book's first song as a player has it; ``None`` where the book has no song."""
    first = next(iter(find_songs(book, count=1).songs), None)
    return lambda number: address(first.id, Wish(player=number)) if first else None


def _more(book: Book, _reading: Reading[Player], kept: KeptPlayer | None) -> dict[str, Any]:
    return {
        "groups": _groups(),
        "levels": LEVEL_WORDS,
        "shows": SHOW_WORDS,
        "page": _page_of(book)(kept.id) if kept else None,
    }


def _groups() -> tuple[tuple[str, tuple[Part, ...]], ...]:
    bowed = tuple(part for part in PARTS if part.bowed)
    return (("Bowed strings", bowed), ("Others", tuple(part for part in PARTS if not part.bowed)))


PAGES = PersonPages(
    word="player",
    labels=LABELS,
    said={**{part.name: part.label for part in PARTS}, **LEVEL_WORDS, **SHOW_WORDS, "yes": "Yes"},
    read=read_player_form,
    texts=player_texts,
    person=lambda kept: kept.player,
    one=player,
    add=add_player,
    save=save_player,
    remove=remove_player,
    more=_more,
)

routes = [Route("/players", list_players, name="players"), *PAGES.routes]
