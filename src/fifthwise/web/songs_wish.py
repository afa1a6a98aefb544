"""What the page *Songs* is asked for: a text that is words or chords, filters, an order and a page.

What reads as chords is chords: ``6- 4``. A Roman numeral alone (``I``) is a word until it is said to be a
chord, and so are figures without a blank (``24``); what may be either offers the other.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from typing import Literal
from urllib.parse import urlencode

from fifthwise.book import SONG_ORDERS, SongOrder
from fifthwise.theory import ChordFault, read_number_chord

__all__ = ["PAGE", "Find", "SongsWish", "read_find", "read_songs_wish", "songs_address"]

PAGE = 50
Way = Literal["words", "chords"]
BETWEEN = re.compile(r"[\s,|:]+")
NUMBER = re.compile(r"(?:bb|##|[b#♭♯𝄫𝄪])?[1-7]")
# What may become a number when it is typed on.
BEGUN = re.compile(r"(?:bb|##|[b#♭♯𝄫𝄪])?[1-7].*|[b#♭♯𝄫𝄪]{1,2}")
FIGURES = re.compile(r"[1-7]{2,16}")
MAYBE_TITLE = re.compile(r"[0-9 ]+|[a-zA-Z ]+")


@dataclass(frozen=True, slots=True)
class Find:
    """A text that is looked for.

    Attributes
    ----------
    way : {'words', 'chords'}
        What it is read as.
    other : str
        What it may also mean, read the other way; empty where that is nothing.
    """

    text: str
    way: Way
    other: str = ""


@dataclass(frozen=True, slots=True)
class SongsWish:
    """What is asked for, as it stands in the address; what is not asked for is empty.

    Attributes
    ----------
    find : str
        As typed.
    way : str
        ``words`` or ``chords`` where that is said.
    low, high : str
        Beats a minute.
    first : int
        How many to pass over.
    """

    find: str = ""
    way: str = ""
    key: str = ""
    low: str = ""
    high: str = ""
    feel: str = ""
    tag: str = ""
    order: SongOrder = "title"
    first: int = 0

    @property
    def filtered(self) -> bool:
        """Whether more is asked for than a text."""
        return any((self.key, self.low, self.high, self.feel, self.tag))

    @property
    def narrows(self) -> bool:
        """Whether it leaves any song out."""
        return bool(self.find) or self.filtered


def read_songs_wish(query: Mapping[str, str]) -> SongsWish:
    """Read a wish from an address; an order or a page that there is not is the first."""
    said = {name: query.get(name, "").strip() for name in ("key", "low", "high", "feel", "tag", "way")}
    order: SongOrder = next((each for each in SONG_ORDERS if each == query.get("order")), "title")
    first = query.get("first", "")
    passed = int(first) if first.isascii() and first.isdecimal() and len(first) < 9 else 0
    find = " ".join(query.get("find", "").split())
    return SongsWish(find=find, order=order, first=passed, **said)


def songs_address(wish: SongsWish, **change: object) -> str:
    """The address of a wish, or of it with something changed."""
    wish = replace(wish, **change)  # type: ignore[arg-type] # names of fields with their values
    said = {each.name: getattr(wish, each.name) for each in fields(wish) if getattr(wish, each.name)}
    if said["order"] == "title":
        del said["order"]
    query = urlencode(said)
    return f"/songs?{query}" if query else "/songs"


def read_find(text: str, way: str = "") -> Find:
    """Tell whether a text is words or chords."""
    tokens = [token for token in BETWEEN.split(text) if token]
    if way in ("words", "chords") and tokens:
        return _told(text, tokens, way == "chords")
    if all(map(_reads, tokens)) and tokens:
        if len(tokens) == 1 and not NUMBER.match(tokens[0]):
            return Find(text, "words", text)
        return Find(text, "chords", text if MAYBE_TITLE.fullmatch(text) else "")
    if FIGURES.fullmatch(text):
        return Find(text, "words", " ".join(text))
    half_typed = len(tokens) > 1 and NUMBER.match(tokens[0]) and all(map(BEGUN.fullmatch, tokens))
    return Find(text, "chords" if half_typed else "words")


def _told(text: str, tokens: list[str], chords: bool) -> Find:
    """A text that is said to be the one or the other."""
    if chords:
        return Find(text, "chords", text)
    return Find(text, "words", text if all(map(_reads, tokens)) else "")


def _reads(token: str) -> bool:
    try:
        read_number_chord(token)
    except ChordFault:
        return False
    return True
