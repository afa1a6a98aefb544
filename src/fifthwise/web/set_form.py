"""The forms of the page *Set*, read: the running order, who is there, the head."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from fifthwise.book import KeptSetSong, SetOrder
from fifthwise.errors import FifthwiseError
from fifthwise.evening import PAPERS
from fifthwise.page import Paper
from fifthwise.web.set_changes import arranged, moved, taken_out

__all__ = ["Change", "SetFormFault", "number", "read_change", "read_head", "read_here", "read_order"]

LARGEST_DIGITS = 9
SEPARATOR = ","


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
    """What was pressed."""
    act, _, place = form.get("do", "").partition("-")
    return Change(act, number(place)) if act in ("up", "down", "out", "save") else Change()


def read_order(form: Mapping[str, str], head: SetOrder) -> SetOrder:
    """The running order as the form has it, with what was pressed done.

    Parameters
    ----------
    head : SetOrder
        Gives the name, the day and the people.

    Raises
    ------
    SetFormFault
        The form does not name its songs.
    """
    songs = tuple(_song(form, at, song_id) for at, song_id in enumerate(_numbers(form.get("songs", "")), 1))
    order = replace(head, songs=songs)
    change = read_change(form)
    if change.act in ("up", "down"):
        return moved(order, change.place, change.place + (1 if change.act == "down" else -1))
    if change.act == "out":
        return taken_out(order, change.place)
    return arranged(order, _numbers(form.get("order", "")))


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


def number(text: str) -> int:
    """A number of what is kept; 0, which nothing has, for any other text."""
    fits = text.isascii() and text.isdecimal() and len(text) <= LARGEST_DIGITS
    return int(text) if fits else 0


def _paper(form: Mapping[str, str]) -> Paper:
    asked = form.get("paper", "a4")
    found = next((paper for paper in PAPERS if paper == asked), None)
    if found is None:
        raise SetFormFault(f"'{asked[:20]}' is no paper", "paper", f"Write {', '.join(PAPERS)}")
    return found


def _song(form: Mapping[str, str], at: int, song_id: int) -> KeptSetSong:
    return KeptSetSong(
        song_id,
        number(form.get(f"singer-{at}", "")) or None,
        form.get(f"key-{at}") or None,
        form.get(f"counts-{at}") or None,
        f"segue-{at}" in form,
    )


def _numbers(text: str) -> list[int]:
    numbers = [number(word) for word in text.split(SEPARATOR)] if text else []
    if 0 in numbers:
        raise SetFormFault("the form does not name its songs", "running order", "Open the set again")
    return numbers


def _ticked(form: Mapping[str, str], kind: str, before: Iterable[int]) -> tuple[int, ...]:
    ticked = [number(name.removeprefix(f"{kind}-")) for name in form if name.startswith(f"{kind}-")]
    return tuple(dict.fromkeys((*(each for each in before if each in ticked), *filter(None, ticked))))
