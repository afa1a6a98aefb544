"""What a song is found by: words without case and accents, so that every database compares alike."""

import re
import unicodedata
from collections.abc import Iterator

from fifthwise.book.chord_index import chord_index
from fifthwise.book.rows import OPENING_SIGN, split_tags
from fifthwise.chart import Chart
from fifthwise.theory import Key

__all__ = ["LONGEST_INDEXED", "fold", "folded_tags", "song_columns"]

JOINED = re.compile(r"-\s*\|\s*")  # a word that goes on in the next bar
LONGEST_INDEXED = 200  # characters; PostgreSQL refuses an index over more than some 2,700 bytes


def fold(text: str) -> str:
    """Take case and accents off a text, and write each blank once; done again, it changes nothing."""
    bare = text
    for _ in range(2):  # folding the case may bring accents to light, and the other way round
        apart = unicodedata.normalize("NFKD", bare.casefold())
        bare = "".join(sign for sign in apart if not unicodedata.combining(sign))
    return " ".join(bare.split())


def folded_tags(chart: Chart) -> frozenset[str]:
    """The tags of a song as they are compared."""
    return frozenset(filter(None, (fold(tag)[:LONGEST_INDEXED] for tag in split_tags(chart.tags))))


def song_columns(chart: Chart) -> dict[str, str | float | None]:
    """The columns beside a song's text: what lists show, and what it is found by."""
    index = chord_index(chart)
    return {
        "title": chart.title,
        "by": chart.by,
        "key": str(chart.key),
        "tempo_bpm": None if chart.tempo is None else float(chart.tempo),
        "feel": chart.feel,
        "tags": chart.tags,
        "folded_title": fold(chart.title)[:LONGEST_INDEXED],
        "folded_feel": fold(chart.feel or ""),
        "folded_words": fold(" ".join(_words(chart))),
        "key_place": _key_place(chart.key),
        "metre": str(chart.metre),
        "sung": any(line.words for section in chart.sections for line in section.lines),
        "opening": OPENING_SIGN.join(index.opening),
        "families": index.families,
        "chords": index.chords,
    }


def _key_place(key: Key) -> int:
    """Where a key stands among the others: the fewest accidentals first, sharps before as many flats."""
    return 2 * abs(key.signature) + (key.signature < 0)


def _words(chart: Chart) -> Iterator[str]:
    """All words of a song: title, author, tags, and verses without the signs for bars."""
    yield from (chart.title, chart.by or "", chart.tags or "")
    for section in chart.sections:
        for line in section.lines:
            yield from (JOINED.sub("", words).replace("|", " ") for words in line.words)
