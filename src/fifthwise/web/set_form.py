"""The forms of the page *Set*, read: the running order, who is there, the head."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from urllib.parse import parse_qsl, urlencode

from fifthwise.book import KeptSetSong, SetOrder
from fifthwise.errors import FifthwiseError
from fifthwise.evening import PAPERS
from fifthwise.page import Paper
from fifthwise.web.set_changes import arranged, moved, taken_out

__all__ = [
    "HEAD",
    "HERE",
    "OFFERED",
    "ORDER",
    "Change",
    "Part",
    "SetFormFault",
    "number",
    "one_of_book",
    "read_change",
    "read_head",
    "read_here",
    "read_order",
]

LARGEST_DIGITS = 9
SEPARATOR = ","
MOST_FIELDS = 5000
OFFERED = "offered"
NOT_WHOLE = "Open the set again"


class SetFormFault(FifthwiseError):
    """A form of the page *Set* that was not sent whole."""


@dataclass(frozen=True, slots=True)
class Change:
    """What was pressed in the running order.

    Attributes
    ----------
    act : str
        ``up``, ``down``, ``out``, ``save``; empty where a field changed or rows were moved.
    place : int
        Of the row, from 1; 0 where there is none.
    """

    act: str = ""
    place: int = 0

    def shown(self, count: int) -> int:
        """The row to show afterwards; 0 for none."""
        to = {"up": self.place - 1, "down": self.place + 1, "save": self.place}.get(self.act, 0)
        return min(max(to, 1), count) if to or self.act == "up" else 0


def read_change(form: Mapping[str, str]) -> Change:
    """What was pressed.

    Raises
    ------
    SetFormFault
        No button of the page says so.
    """
    act, _, place = form.get("do", "").partition("-")
    if act in ("up", "down", "out", "save"):
        return Change(act, number(place))
    if act:
        raise SetFormFault("the form asks for what no button does", "running order", NOT_WHOLE)
    return Change()


def read_order(form: Mapping[str, str], base: SetOrder) -> SetOrder:
    """The running order as the form has it, with what was pressed done.

    Parameters
    ----------
    base : SetOrder
        What the form was made from.

    Raises
    ------
    SetFormFault
        The form does not name the songs of ``base``, each at its place, or a place that is not there.
    """
    order = replace(base, songs=_songs(form))
    same = [song.song_id for song in order.songs] == [song.song_id for song in base.songs]
    # What is offered after a conflict may bring a song back, or another order.
    if not same and OFFERED not in form:
        raise SetFormFault("the form has other songs than the set", "running order", NOT_WHOLE)
    change, places = read_change(form), _numbers(form.get("order", ""))
    _check_places(len(order.songs), change, places)
    if change.act in ("up", "down"):
        return moved(order, change.place, change.place + (1 if change.act == "down" else -1))
    if change.act == "out":
        return taken_out(order, change.place)
    return arranged(order, places)


def read_here(form: Mapping[str, str], order: SetOrder) -> SetOrder:
    """The set with the people who were ticked, those who were there before in their order."""
    return replace(
        order,
        singer_ids=_ticked(form, "singer", order.singer_ids),
        player_ids=_ticked(form, "player", order.player_ids),
    )


def read_head(form: Mapping[str, str], order: SetOrder) -> SetOrder:
    """The set with the name, day and paper that were typed."""
    return replace(order, name=form.get("name", ""), date=form.get("date") or None, paper=_paper(form))


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a set that has a form of its own.

    Attributes
    ----------
    read : callable
        The set as a form has it, over the set that the form was made from.
    fields : callable
        The fields of that part, as its form sends them.
    was : callable
        The part alone, from its fields.
    """

    read: Callable[[Mapping[str, str], SetOrder], SetOrder]
    fields: Callable[[SetOrder], dict[str, str]]
    was: Callable[[Mapping[str, str]], SetOrder]

    def written(self, order: SetOrder) -> str:
        """The part as one text, for a form to bring what it was made from."""
        return urlencode(self.fields(order), safe=SEPARATOR)

    def made_from(self, text: str) -> SetOrder:
        """What a form was made from.

        Raises
        ------
        SetFormFault
            It does not say so.
        """
        try:
            fields = dict(parse_qsl(text, keep_blank_values=True, max_num_fields=MOST_FIELDS))
        except ValueError:
            fields = {}
        if not fields:
            raise SetFormFault("the form does not say what it was made from", "set", NOT_WHOLE)
        return self.was(fields)


def number(text: str) -> int:
    """A number of what is kept; 0, which nothing has, for any other text."""
    fits = text.isascii() and text.isdecimal() and len(text) <= LARGEST_DIGITS
    return int(text) if fits else 0


def one_of_book(text: str) -> int | None:
    """The number of a singer or player; ``None`` for an empty text.

    Raises
    ------
    SetFormFault
        It is no such number.
    """
    if text and not number(text):
        raise SetFormFault("the form names nobody of the book", "set", NOT_WHOLE)
    return number(text) or None


def _paper(form: Mapping[str, str]) -> Paper:
    asked = form.get("paper", "a4")
    found = next((paper for paper in PAPERS if paper == asked), None)
    if found is None:
        raise SetFormFault(f"'{asked[:20]}' is no paper", "paper", f"Write {', '.join(PAPERS)}")
    return found


def _song(form: Mapping[str, str], at: int, song_id: int) -> KeptSetSong:
    return KeptSetSong(
        song_id,
        one_of_book(form.get(f"singer-{at}", "")),
        form.get(f"key-{at}") or None,
        form.get(f"counts-{at}") or None,
        f"segue-{at}" in form,
    )


def _songs(form: Mapping[str, str]) -> tuple[KeptSetSong, ...]:
    return tuple(_song(form, at, song_id) for at, song_id in enumerate(_numbers(form.get("songs", "")), 1))


def _check_places(count: int, change: Change, places: list[int]) -> None:
    if change.act and not 1 <= change.place <= count:
        raise SetFormFault("the form names a place that is not there", "running order", NOT_WHOLE)
    if places and sorted(places) != list(range(1, count + 1)):
        raise SetFormFault("the new order does not name each place once", "running order", NOT_WHOLE)


def _order_fields(order: SetOrder) -> dict[str, str]:
    fields = {"songs": SEPARATOR.join(str(song.song_id) for song in order.songs)}
    for at, song in enumerate(order.songs, 1):
        row = {
            f"singer-{at}": str(song.singer_id or ""),
            f"key-{at}": song.key or "",
            f"counts-{at}": song.counts_in or "",
            f"segue-{at}": "on" if song.segue else "",
        }
        fields |= {name: value for name, value in row.items() if value}
    return fields


def _here_fields(order: SetOrder) -> dict[str, str]:
    # The name of the part, so that a set where nobody is says something too.
    return {
        "here": "on",
        **{f"singer-{each}": "on" for each in order.singer_ids},
        **{f"player-{each}": "on" for each in order.player_ids},
    }


def _head_fields(order: SetOrder) -> dict[str, str]:
    return {"name": order.name, "date": order.date or "", "paper": order.paper}


def _numbers(text: str) -> list[int]:
    numbers = [number(word) for word in text.split(SEPARATOR)] if text else []
    if 0 in numbers:
        raise SetFormFault("the form does not name its songs", "running order", "Open the set again")
    return numbers


def _ticked(form: Mapping[str, str], kind: str, before: Iterable[int]) -> tuple[int, ...]:
    names = [name.removeprefix(f"{kind}-") for name in form if name.startswith(f"{kind}-")]
    ticked = [each for each in map(one_of_book, names) if each is not None]
    return tuple(dict.fromkeys((*(each for each in before if each in ticked), *ticked)))


NOTHING = SetOrder("")
ORDER = Part(read_order, _order_fields, lambda fields: replace(NOTHING, songs=_songs(fields)))
HERE = Part(read_here, _here_fields, lambda fields: read_here(fields, NOTHING))
HEAD = Part(read_head, _head_fields, lambda fields: read_head(fields, NOTHING))
