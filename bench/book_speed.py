"""Search a book of 10,000 songs, a page at a time, and print how long it takes.

Run ``python -m bench.book_speed``. The songs are those of ``bench/_big_book.py``, so that a search finds as
large a part of the book as in a book of different songs.
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
from pathlib import Path

from bench._big_book import SONGS, fill
from bench.chart_speed import made_up_chart
from fifthwise.book import SONG_ORDERS, add_song, find_songs, open_book, song
from fifthwise.theory import read_key
from tests.book.pop_scan import different_progressions, scan
from tests.harte import pop_songs

PAGE = 50
PROGRESSIONS = 200
SCANNED = 10  # of these, for the reference
WANTED_MS, WANTED_ADDED = 30, 150
ADDED, THREADS = 200, 64
WORDS = ("lamp", "Song 77", "even nowhere", "zzz")


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
