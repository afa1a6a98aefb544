"""The list of songs as it is asked for: rows, how many, and what is in the way."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from itertools import groupby

from markupsafe import Markup

from fifthwise.book import (
    Book,
    Found,
    KeptSinger,
    SearchFault,
    SongRow,
    Sung,
    feels,
    find_songs,
    last_sung_of,
    singers,
    song_count,
    song_keys,
    tags,
)
from fifthwise.errors import FifthwiseError
from fifthwise.page import number_figure, printed_key
from fifthwise.theory import Key, KeyFault, read_key, read_number_chord
from fifthwise.web.days import said_day
from fifthwise.web.songs_wish import BETWEEN, PAGE, Find, SongsWish, read_find, songs_address

__all__ = ["Choices", "Line", "SongsView", "choices", "songs_view"]

FEW_SINGERS = 3  # more do not stand beside each other
SHOWN = 6  # chords of an opening
CHORD = Markup('<span class="c"><b>{}{}<small>{}</small>{}</b></span> ')
MARKED = Markup("<mark>{}</mark> ")
CHORDS = Markup('<span class="chords">{}{}{}{}{}</span>')


@dataclass(frozen=True, slots=True)
class Choices:
    """What the filters offer."""

    keys: tuple[tuple[Key, int], ...]
    feels: tuple[tuple[str, int], ...]
    tags: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Line:
    """One song of the list.

    Attributes
    ----------
    initial : str
        The letter that it stands under, where that is a new one.
    sung : tuple of Key or None
        In which key each singer sang it last.
    when : str
        When it was sung last.
    """

    row: SongRow
    initial: str
    opening: Markup
    sung: tuple[Key | None, ...]
    when: str


@dataclass(frozen=True, slots=True)
class SongsView:
    """A page of the list.

    Attributes
    ----------
    fault : FifthwiseError or None
        Why what was typed cannot be looked for; the list is then that of all else.
    total, of : int
        How many were found, and how many there are.
    said : str
        What they have in common.
    singers : tuple of KeptSinger
        Those with a column of their own.
    other : str
        Where the same text is looked for the other way; empty where it cannot be.
    more, before : str
        The addresses of the next page and the page before it; empty where there is none.
    """

    wish: SongsWish
    find: Find
    fault: FifthwiseError | None
    total: int
    of: int
    said: str
    singers: tuple[KeptSinger, ...]
    lines: tuple[Line, ...]
    other: str
    more: str
    before: str
    page: int = PAGE


def choices(book: Book, wish: SongsWish) -> Choices:
    """What there is to choose from; what is asked for and is not there can be seen and taken away too."""
    return Choices(song_keys(book), _with(feels(book), wish.feel), _with(tags(book), wish.tag))


def _with(offered: tuple[tuple[str, int], ...], asked: str) -> tuple[tuple[str, int], ...]:
    names = {name for name, _ in offered}
    return offered if not asked or asked in names else (*offered, (asked, 0))


def songs_view(book: Book, wish: SongsWish, today: date) -> SongsView:
    """Find what is asked for; what cannot be looked for is told, and left out."""
    find = read_find(wish.find, wish.way)
    fault, found = None, None
    try:
        found = _found(book, wish, find)
    except (SearchFault, KeyFault) as error:
        fault = error
    if found is None:
        found = find_songs(book, order=wish.order, first=wish.first, count=PAGE)
    everyone = singers(book)
    after = wish.first + len(found.songs)
    return SongsView(
        wish,
        find,
        fault,
        found.total,
        song_count(book),
        "" if fault else _said(wish, find),
        everyone if len(everyone) <= FEW_SINGERS else (),
        _lines(book, wish, find, found.songs, everyone, today),
        songs_address(wish, way="chords" if find.way == "words" else "words", find=find.other, first=0)
        if find.other
        else "",
        songs_address(wish, first=after) if after < found.total else "",
        songs_address(wish, first=max(0, wish.first - PAGE)) if wish.first else "",
    )


def _found(book: Book, wish: SongsWish, find: Find) -> Found:
    return find_songs(
        book,
        words=find.text if find.way == "words" else "",
        progression=find.text if find.way == "chords" else "",
        key=read_key(wish.key) if wish.key else None,
        tempo=_tempo(wish),
        feel=wish.feel or None,
        tag=wish.tag or None,
        order=wish.order,
        first=wish.first,
        count=PAGE,
    )


def _tempo(wish: SongsWish) -> tuple[float, float] | None:
    if not wish.low and not wish.high:
        return None
    low, high = _beats(wish.low, 0), _beats(wish.high, 1000)
    if low > high:
        raise SearchFault(f"no tempo lies from {low:g} to {high:g}", "tempo", "Write the slower one first")
    return low, high


def _beats(text: str, default: float) -> float:
    if not text:
        return default
    if not (text.isascii() and text.replace(".", "", 1).isdecimal() and len(text) < 9):
        raise SearchFault(f"'{text[:20]}' is no tempo", "tempo", "Write beats a minute, as in 96")
    return float(text)


def _said(wish: SongsWish, find: Find) -> str:
    """What all that is found has in common, as a sentence goes on."""
    said = []
    if find.text and find.way == "chords":
        # A chord said twice in a row is one.
        chords = [chord for chord, _ in groupby(_plain(token) for token in BETWEEN.split(find.text) if token)]
        said.append(f"with {' then '.join(chords)} in any key")
    elif find.text:
        said.append(f"with “{find.text}” in title or words")
    if wish.key:
        said.append(f"written in {printed_key(read_key(wish.key))}")
    if wish.low or wish.high:
        said.append(_said_tempo(wish))
    said += [f"{name} {value}" for name, value in (("feel", wish.feel), ("tag", wish.tag)) if value]
    return ", ".join(said)


def _said_tempo(wish: SongsWish) -> str:
    if wish.low and wish.high:
        return f"tempo {wish.low} to {wish.high}"
    return f"tempo from {wish.low}" if wish.low else f"tempo to {wish.high}"


def _lines(
    book: Book,
    wish: SongsWish,
    find: Find,
    rows: Sequence[SongRow],
    everyone: tuple[KeptSinger, ...],
    today: date,
) -> tuple[Line, ...]:
    sung = last_sung_of(book, [row.id for row in rows]) if everyone else {}
    columns = [each.id for each in everyone] if len(everyone) <= FEW_SINGERS else []
    asked = bool(find.text) and find.way == "chords"
    lines, last = [], ""
    for row in rows:
        initial = row.title[:1].upper() if wish.order == "title" else ""
        of_row = sung.get(row.id, ())
        keys = tuple(next((each.key for each in of_row if each.singer_id == one), None) for one in columns)
        opening = _opening(row.opening, row.opening_match, asked=asked)
        lines.append(Line(row, "" if initial == last else initial, opening, keys, _when(of_row, today)))
        last = initial
    return tuple(lines)


def _when(of_row: tuple[Sung, ...], today: date) -> str:
    return said_day(of_row[0].on, today) if of_row else "not yet"


def _opening(chords: tuple[str, ...], match: tuple[int, int] | None, *, asked: bool) -> Markup:
    """The first chords, what was asked for marked among them; the window goes as far as it has to."""
    start, end = match or (0, 0)
    first = max(0, min(start, end - SHOWN))
    shown = range(first, min(len(chords), first + SHOWN))
    parts = [
        Markup("").join(_chord(chords[place]) for place in shown if place < start),
        Markup("").join(_chord(chords[place]) for place in shown if start <= place < end),
        Markup("").join(_chord(chords[place]) for place in shown if place >= end),
    ]
    marked = MARKED.format(parts[1]) if parts[1] else ""
    later = Markup('<span class="later">later on</span>') if asked and match is None else ""
    before = Markup('<span class="c">…</span> ' if first else "")
    return CHORDS.format(before, parts[0], marked, parts[2], later)


@lru_cache(maxsize=4096)
def _chord(token: str) -> Markup:
    figure = number_figure(read_number_chord(token))
    bass = f"/{figure.bass}" if figure.bass else ""
    return CHORD.format(figure.sign + figure.root, figure.after, figure.raised, bass)


def _plain(token: str) -> str:
    return number_figure(read_number_chord(token)).text
