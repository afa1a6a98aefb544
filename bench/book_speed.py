"""Search a book of 10,000 songs, a page at a time, and print how long it takes.

Run ``python -m bench.book_speed``. The songs are the 370 of ``tests/data``, each 27 times with a title, a key
and a tempo of its own, so that a search finds as large a part of the book as in a book of different songs.
Searches and scans are told in processor time, since the machine may be shared.

- Searches: progressions from the songs, plainly and exactly asked for, and others; words, key, tempo, feel
  and tag; each in every order, its first 50 songs and the count of all.
- Beside them: going through the chords of all songs, which are in memory, read, unfolded and parted already.
- Adding: a song at a time, each on the disk before the next is read.
- Reading at once: 64 threads that each look for songs and read one.
"""

import itertools
import statistics
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from sqlalchemy import insert

from bench.chart_speed import made_up_chart
from fifthwise.book import SONG_ORDERS, add_song, find_songs, open_book, song
from fifthwise.book.engine import writing
from fifthwise.book.folded import folded_tags, song_columns
from fifthwise.book.tables import song as song_table
from fifthwise.book.tables import song_tag, song_version
from fifthwise.chart import parse, rekey, write_chart
from fifthwise.theory import NoteName, read_key
from tests.book.pop_scan import different_progressions, scan
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

SONGS = 10_000
PAGE = 50
PROGRESSIONS = 200
SCANNED = 10  # of these, for the reference
WANTED_MS, WANTED_ADDED = 30, 150
ADDED, THREADS = 200, 64
FEELS = ("swing", "shuffle", "straight", "half-time shuffle", None)
WORDS = ("lamp", "Song 77", "even nowhere", "zzz")


def fill(book):
    """Put all songs into a book behind its door: their charts are read once, not 27 times."""
    charts = [parse(number_chart(each, "song")) for each in pop_songs()]
    columns = [song_columns(chart) for chart in charts]
    rows, kept, tagged = [], [], []
    for number in range(SONGS):
        place = number % len(charts)
        title, tags = (
            f"Song {number} of {place}",
            f"tag {number % 7}, even" if number % 2 else f"tag {number % 7}",
        )
        head = replace(
            rekey(replace(charts[place], sections=()), NoteName(number % 13 - 6)),
            title=title, tempo=60 + number % 100, feel=FEELS[number % len(FEELS)], tags=tags,
        )  # fmt: skip
        text = (
            write_chart(replace(charts[place], title=title)) if number < len(charts) else rows[place]["text"]
        )
        own = {
            **song_columns(head),
            **{name: columns[place][name] for name in ("opening", "families", "chords")},
        }
        saved_at = datetime(2026, 1, 1) + timedelta(minutes=number * 7919 % SONGS)
        rows.append({"id": number + 1, "version": 1, "text": text, "saved_at": saved_at, **own})
        kept.append({"song_id": number + 1, "version": 1, "text": text, "saved_at": saved_at})
        tagged += [{"song_id": number + 1, "folded_tag": tag} for tag in folded_tags(head)]
    with writing(book) as connection:
        for table, values in ((song_table, rows), (song_version, kept), (song_tag, tagged)):
            connection.execute(insert(table), values)


def searches(asked):
    """What is asked for, in turn in each order."""
    plain = [{}, {"feel": "shuffle"}, {"tempo": (90, 110)}, {"key": read_key("Eb")}, {"tag": "tag 3"}]
    wishes = [
        *({"progression": text} for text in asked),
        *(dict(wish) for wish in plain for _ in range(8)),
        *({"words": words} for words in WORDS for _ in range(8)),
    ]
    return [
        {**wish, "order": order} for wish, order in zip(wishes, itertools.cycle(SONG_ORDERS), strict=False)
    ]


def in_ms(work, clock=time.process_time):
    start = clock()
    work()
    return 1000 * (clock() - start)


def search_times(book, asked):
    """Print the times of all searches by kind; gives the 95th percentile of all, in milliseconds."""
    times = {}
    for wish in searches(asked):
        kind = next(iter(wish))
        times.setdefault(kind, []).append(in_ms(lambda wish=wish: find_songs(book, **wish, count=PAGE)))
    for kind, each in times.items():
        print(f"{kind}: {len(each)}, median {statistics.median(each):.1f} ms, {at_95(each):.1f} ms at 95 %")
    return at_95([ms for each in times.values() for ms in each])


def at_95(times):
    return statistics.quantiles(times, n=20)[-1]


def beside_scan(book, asked):
    """Search and scan for the same progressions; gives how many times as fast the search is."""
    numbers = [number % len(pop_songs()) for number in range(SONGS)]
    picked = list(asked.items())[:SCANNED]
    scan(picked[0][1], numbers)  # the labels are read and parted here
    ours = sum(in_ms(lambda text=text: find_songs(book, progression=text, count=PAGE)) for text, _ in picked)
    theirs = sum(in_ms(lambda wanted=wanted: scan(wanted, numbers)) for _, wanted in picked)
    print(f"{SCANNED} progressions: search {ours / SCANNED:.1f} ms each, scan {theirs / SCANNED:.1f} ms each")
    return theirs / ours


def main():
    asked = different_progressions(PROGRESSIONS)
    with tempfile.TemporaryDirectory() as folder, open_book(Path(folder) / "bench.book") as book:
        fill(book)
        print(f"{SONGS} songs, {Path(folder, 'bench.book').stat().st_size / 1e6:.0f} MB")
        slowest = search_times(book, asked)
        print(f"all: {slowest:.1f} ms at 95 % (wanted {WANTED_MS})")
        print(f"search is {beside_scan(book, asked):.0f} times as fast as the scan")
        texts = [made_up_chart(seed) for seed in range(ADDED)]
        start = time.perf_counter()
        added = ADDED / in_ms(lambda: [add_song(book, text) for text in texts]) * 1000
        by_clock = ADDED / (time.perf_counter() - start)
        print(f"add: {added:.0f} songs a second of processor (wanted {WANTED_ADDED})")
        print(f"add: {by_clock:.0f} songs a second by the clock")
        with ThreadPoolExecutor(THREADS) as pool:
            each = list(
                pool.map(lambda n: in_ms(lambda: read_one(book, n), time.perf_counter), range(4 * THREADS))
            )
        print(f"{THREADS} threads reading: {statistics.median(each):.0f} ms, the slowest {max(each):.0f} ms")
    return slowest <= WANTED_MS and added >= WANTED_ADDED


def read_one(book, number):
    found = find_songs(book, key=read_key("Eb"), first=number, count=1)
    return song(book, found.songs[0].id)


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
