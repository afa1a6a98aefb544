"""What is asked of a song's page, all of it in its address: one value, read once, written in one place."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal, TypeVar, get_args
from urllib.parse import urlencode

from fifthwise.errors import FifthwiseError
from fifthwise.evening import SHOWS, part_of
from fifthwise.page import Paper, Show
from fifthwise.strings import LEVELS, Level, instrument_of

__all__ = [
    "MOST_CAPO",
    "At",
    "See",
    "Wish",
    "WishFault",
    "address",
    "at_text",
    "fields",
    "read_paper",
    "read_wish",
]

MOST_CAPO = 11
LONGEST = 80
PAPERS: tuple[Paper, ...] = ("a4", "letter")
At = tuple[int, int, int, int]
See = Literal["chord", "anchors", "key"]
SEES: tuple[See, ...] = get_args(See)
Word = TypeVar("Word", bound=str)
AT = re.compile(r"(\d{1,4})\.(\d{1,4})\.(\d{1,4})(?:\.(\d{1,4}))?", re.ASCII)


class WishFault(FifthwiseError):
    """Something in an address of the page *Song* that cannot be had."""


@dataclass(frozen=True, slots=True)
class Wish:
    """How a song is asked for. What the address says goes before what suits a singer or a player.

    Attributes
    ----------
    key : str
        As it was called; empty chooses it.
    show : str or None
        What stands in the bars; ``None`` leaves it to whose page it is.
    singer, player : int or None
        For whom it is; at most one of them.
    part : str
        An instrument; empty is concert pitch.
    capo : int or None
        Fret.
    tune, words : bool or None
        Whether they stand under the bars; ``None`` leaves it to whose page it is.
    staff : bool
        Whether the tune stands on a staff too.
    only : bool
        Whether the chart has the whole screen.
    at : tuple of int or None
        The place of the chart that was touched: section, bar, slot, and turn of the section.
    see : {'chord', 'anchors', 'key'} or None
        What the fingerboard shows; ``None`` is the chord touched, else the anchors.
    hand : Level or None
        How far up it goes; ``None`` leaves it to whose page it is.
    board : str
        Whose fingerboard it is where the page has none of its own; empty is a violin's.
    """

    key: str = ""
    show: Show | None = None
    singer: int | None = None
    player: int | None = None
    part: str = ""
    capo: int | None = None
    tune: bool | None = None
    words: bool | None = None
    staff: bool = False
    only: bool = False
    at: At | None = None
    see: See | None = None
    hand: Level | None = None
    board: str = ""


def read_wish(query: Mapping[str, str]) -> Wish:
    """Read a wish from an address; what is empty is not asked for.

    Raises
    ------
    WishFault, PartFault, InstrumentFault
        What cannot be had, and what could.
    """
    kind, number = _whose(query.get("for", ""))
    part = query.get("part", "").strip()
    capo = _capo(query.get("capo", ""))
    board = query.get("board", "").strip()[:LONGEST]
    if part:
        found = part_of(part[:LONGEST])
        # Who goes on from a guitar to a horn means the horn.
        part, capo = found.name, None if found.written.fifths else capo
    return Wish(
        key=query.get("key", "").strip()[:LONGEST],
        show=_one_of(SHOWS, query.get("show", ""), "show", "is no way to show a chart"),
        singer=number if kind == "singer" else None,
        player=number if kind == "player" else None,
        part=part,
        capo=capo,
        tune=_switch(query, "tune"),
        words=_switch(query, "words"),
        staff=bool(_switch(query, "staff")),
        only=bool(_switch(query, "only")),
        at=_at(query.get("at", "")),
        see=_one_of(SEES, query.get("see", ""), "see", "is nothing that a fingerboard shows"),
        hand=_one_of(LEVELS, query.get("hand", ""), "hand", "is no place for a hand"),
        board=instrument_of(board).name if board else "",
    )


def read_paper(query: Mapping[str, str]) -> Paper:
    """The paper that is asked for; A4 unless it is Letter.

    Raises
    ------
    WishFault
        It is another.
    """
    word = query.get("paper") or "a4"
    found = next((paper for paper in PAPERS if paper == word), None)
    if found is None:
        raise WishFault(f"'{_short(word)}' is no paper that we print on", "paper", "Write a4 or letter")
    return found


def address(song_id: int, wish: Wish, file: str = "", *, paper: Paper | None = None, **change: Any) -> str:
    """The address of a wish, or of it with something changed.

    Parameters
    ----------
    file : str
        A file of the song, as in ``song.pdf``; empty is the page.
    **change
        Fields of `Wish` with their new values.
    """
    asked = fields(replace(wish, **change)) | ({"paper": paper} if paper else {})
    query = urlencode(asked, safe=":")
    path = f"/songs/{song_id}" + (f"/{file}" if file else "")
    return f"{path}?{query}" if query else path


def fields(wish: Wish) -> dict[str, str]:
    """A wish as the fields of an address or a form; what is not asked for has none."""
    whose = f"singer:{wish.singer}" if wish.singer else f"player:{wish.player}" if wish.player else ""
    said = {
        "key": wish.key,
        "show": wish.show or "",
        "for": whose,
        "part": wish.part,
        "capo": "" if wish.capo is None else str(wish.capo),
        "tune": _bit(wish.tune),
        "words": _bit(wish.words),
        "staff": _bit(wish.staff or None),
        "only": _bit(wish.only or None),
        "hand": wish.hand or "",
        "board": wish.board,
        "see": wish.see or "",
        "at": at_text(wish.at),
    }
    return {name: value for name, value in said.items() if value}


def at_text(at: At | None) -> str:
    """A place of the chart as an address names it: ``2.0.1``; empty for none."""
    if at is None:
        return ""
    return ".".join(map(str, at if at[3] else at[:3]))


def _at(text: str) -> At | None:
    found = AT.fullmatch(text)
    if text and found is None:
        raise WishFault(f"'{_short(text)}' is no place in a chart", "at", "Touch a bar, or choose a chord")
    if found is None:
        return None
    section, bar, slot, turn = (int(figures or 0) for figures in found.groups())
    return section, bar, slot, turn


def _one_of(words: Sequence[Word], word: str, where: str, what: str) -> Word | None:
    found = next((each for each in words if each == word), None)
    if word and found is None:
        raise WishFault(f"'{_short(word)}' {what}", where, f"Write {', '.join(words)}")
    return found


def _whose(text: str) -> tuple[str, int]:
    if not text:
        return "", 0
    kind, _, number = text.partition(":")
    if kind not in ("singer", "player") or not (number.isascii() and number.isdecimal() and len(number) < 10):
        raise WishFault(f"'{_short(text)}' is nobody in the book", "for", "Choose a singer or a player")
    return kind, int(number)


def _capo(text: str) -> int | None:
    if not text:
        return None
    if not (text.isascii() and text.isdecimal() and len(text) < 4) or int(text) > MOST_CAPO:
        raise WishFault(f"'{_short(text)}' is no fret for a capo", "capo", f"Write 0 to {MOST_CAPO}")
    return int(text)


def _switch(query: Mapping[str, str], name: str) -> bool | None:
    word = query.get(name, "")
    if word not in ("", "0", "1"):
        raise WishFault(f"'{_short(word)}' does not say whether", name, "Write 1 for yes or 0 for no")
    return word == "1" if word else None


def _bit(value: bool | None) -> str:
    return "" if value is None else str(int(value))


def _short(text: str) -> str:
    return text if len(text) <= LONGEST else f"{text[:LONGEST]}…"
