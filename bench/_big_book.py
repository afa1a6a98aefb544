"""A book of 10,000 songs for the benches: the 370 of ``tests/data``, each 27 times.

Every song has a title, a key, a tempo, a feel and tags of its own. What is sung is made up: a tune and words
under the verses and choruses, alike in all 27. Nothing is left to chance, so that each run has the same book.
"""

import random
import re
from dataclasses import replace
from datetime import datetime, timedelta

from sqlalchemy import insert

from fifthwise.book.engine import writing
from fifthwise.book.folded import folded_tags, song_columns
from fifthwise.book.tables import song as song_table
from fifthwise.book.tables import song_tag, song_version
from fifthwise.chart import parse, rekey, write_chart
from fifthwise.theory import NoteName
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

__all__ = ["SONGS", "fill"]

SONGS = 10_000
FEELS = ("swing", "shuffle", "straight", "half-time shuffle", None)
SUNG = re.compile(r"# (verse|chorus|refrain)")
DEGREES = ("5,", "6,", "1", "2", "3", "5", "1", "6", "1'", "2'", "-")
LINES = ("Down along the quay at night", "Every lamp alight", "Nobody told the tide", "Slow as the ropes run")
# Of a made-up song, these come from its own head; everything else from the bars that it shares with others.
OF_BARS = ("opening", "families", "chords", "sung")


def fill(book):
    """Put all songs into a book behind its door: their bars are read once, not 27 times."""
    bodies = [_body(place) for place in range(len(pop_songs()))]
    charts = [parse(body) for body in bodies]
    columns = [song_columns(chart) for chart in charts]
    rows, kept, tagged = [], [], []
    for number in range(SONGS):
        place = number % len(charts)
        head = _head(charts[place], number, place)
        text = write_chart(head) + bodies[place].split("---\n", 2)[2]
        own = song_columns(head)
        shared = {name: columns[place][name] for name in OF_BARS}
        words = f"{own['folded_words']} {columns[place]['folded_words'].removeprefix('song')}".strip()
        saved_at = datetime(2026, 1, 1) + timedelta(minutes=number * 7919 % SONGS)
        row = {"id": number + 1, "version": 1, "text": text, "saved_at": saved_at}
        rows.append({**row, **own, **shared, "folded_words": " ".join(words.split())})
        kept.append({"song_id": number + 1, "version": 1, "text": text, "saved_at": saved_at})
        tagged += [{"song_id": number + 1, "folded_tag": tag} for tag in folded_tags(head)]
        if number % 1000 == 0:
            assert rows[-1] | song_columns(parse(text)) == rows[-1], "not what adding the song would keep"
    with writing(book) as connection:
        for table, values in ((song_table, rows), (song_version, kept), (song_tag, tagged)):
            connection.execute(insert(table), values)


def _head(chart, number, place):
    """A song's own head, without bars."""
    tag = f"tag {number % 7}"
    return replace(
        rekey(replace(chart, sections=()), NoteName(number % 13 - 6)),
        title=f"Song {number} of {place}",
        tempo=60 + number % 100,
        feel=FEELS[number % len(FEELS)],
        tags=f"{tag}, even" if number % 2 else tag,
    )


def _body(place):
    """A song of the data as text, a tune and words under its verses and choruses."""
    chance = random.Random(place)
    text = number_chart(pop_songs()[place], "song").replace("---\n", "---\noctave: 4\n", 1)
    beats = parse(text).metre.beats
    lines, sung = [], False
    for line in text.splitlines():
        lines.append(line)
        if line.startswith("#"):
            sung = bool(SUNG.match(line))
        elif sung and "[" in line:
            sung = False  # another metre
        elif sung:
            lines.append(_tune(chance, beats, _bars(line)))
            lines.append(f"words: {chance.choice(LINES)}")
    return "\n".join(lines) + "\n"


def _tune(chance, beats, bars):
    """A tune under so many bars, a token a beat; a note stands before what holds it."""
    tokens = [chance.choice(DEGREES[:-1]), *(chance.choice(DEGREES) for _ in range(beats * bars - 1))]
    cells = (tokens[place : place + beats] for place in range(0, len(tokens), beats))
    return f"tune: {' | '.join(map(' '.join, cells))}"


def _bars(line):
    """How many bars stand in a line of them."""
    return sum(bool(part.strip(" :")) for part in re.sub(r"x\d+\Z", "", line).split("|"))
