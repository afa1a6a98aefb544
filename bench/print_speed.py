"""Print an evening of 100 songs for six players and two singers, beside Typst's own time for the same pages.

Run ``python bench/print_speed.py``. The songs are the first of ``tests/data``, with invented ends of a tune,
so that each has a key to choose. Ours runs from parsed texts to the bytes of every file. Typst alone gets the
very calls that we make of it, put together before its clock starts, in a fresh process on one core.
"""

import argparse
import multiprocessing
import os
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))  # for the songs, which the tests read too

import typst

from fifthwise.chart import parse
from fifthwise.evening import read_evening
from fifthwise.page.sheet import song_text
from fifthwise.stage import books, plan, print_books
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

SONGS = 100
WANTED = {"one core": 1.5, "all cores": 0.8}
LOWEST = ("5,", "1", "3,", "6,")
HIGHEST = ("3'", "5'", "1'", "2'")
SINGERS = ("Maren", "Tobias")
PEOPLE = """evening: Long night
singers:
  Maren:  {usable: F3-D5, comfort: A3-Bb4}
  Tobias: {usable: A2-G4, comfort: C3-E4, turns: D4 F4}
players:
  Ines:  {instrument: fiddle, show: both}
  Runa:  {instrument: viola, show: both}
  Oskar: {instrument: guitar, capo: yes, show: letters}
  Bram:  {instrument: bass, show: numbers}
  Odile: {instrument: keys, show: both}
  Lene:  {instrument: trumpet in Bb, show: letters}
songs:
"""


def chart_text(place):
    """A song as chart text, with the ends of what is sung."""
    fields = f"octave: 4\nlowest: {LOWEST[place % 4]}\nhighest: {HIGHEST[place // 4 % 4]}\n"
    return number_chart(pop_songs()[place], f"Song {place + 1}").replace("---\n", f"---\n{fields}", 1)


def evening_of(count):
    """An evening of so many songs, and its charts."""
    charts = {f"{place}.chart.md": parse(chart_text(place)) for place in range(count)}
    rows = (f"  - {{chart: {name}, singer: {SINGERS[i % 2]}}}\n" for i, name in enumerate(charts))
    return read_evening(PEOPLE + "".join(rows), "long night"), charts


def another_key(evening, tonight):
    """The same evening with the key of one song called a step on."""
    place = len(evening.songs) // 2
    key = "D" if str(tonight.calls[place].chart.key.tonic) != "D" else "E"
    songs = list(evening.songs)
    songs[place] = replace(songs[place], key=f"{key} {tonight.calls[place].chart.key.mode}")
    return replace(evening, songs=tuple(songs))


def typst_alone(count):
    """Seconds of Typst for all files, on one core, and how many files that is."""
    os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    real, calls = typst.compile, []

    def noted(*arguments, **named):
        calls.append((arguments, named))
        return b""

    typst.compile = noted
    for output in books(plan(*evening_of(count))):
        output.make()
    start = time.perf_counter(), time.process_time()
    for arguments, named in calls:
        real(*arguments, **named)
    return time.perf_counter() - start[0], time.process_time() - start[1], len(calls)


def ours(count, one_core):
    """Seconds of a print and of another after one key has changed, and the songs laid out each time."""
    if one_core:
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    workers = 1 if one_core else None
    evening, charts = evening_of(count)
    found = []
    for _ in range(2):
        before = song_text.cache_info().misses
        start = time.perf_counter(), time.process_time()
        tonight = plan(evening, charts)
        print_books(books(tonight), workers=workers)
        written = song_text.cache_info().misses - before
        found.append((time.perf_counter() - start[0], time.process_time() - start[1], written))
        evening = another_key(evening, tonight)
    return found


def alone(function, *arguments):
    """A function's answer from a fresh process."""
    with ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("spawn")) as process:
        return process.submit(function, *arguments).result()


def main(arguments=()):
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--songs", type=int, default=SONGS)
    count = parser.parse_args(arguments).songs
    typst_s, typst_cpu_s, files = alone(typst_alone, count)
    told = f"{typst_s:.1f} s ({typst_cpu_s:.1f} s of processor)"
    print(f"{count} songs, {files} files; Typst alone on one core: {told}", flush=True)
    met = True
    for name, wanted in WANTED.items():
        (first_s, cpu_s, written), (again_s, again_cpu_s, again) = alone(ours, count, name == "one core")
        met = met and first_s / typst_s <= wanted
        print(f"ours, {name}: {first_s:.1f} s, {first_s / typst_s:.2f} times Typst alone (wanted {wanted})")
        print(f"  after one key change: {again_s:.1f} s, {again_s / first_s:.2f} of the first print")
        if name == "one core":
            ratio = cpu_s / typst_cpu_s
            print(f"  processor: {cpu_s:.1f} s, {ratio:.2f} times Typst alone; then {again_cpu_s:.1f} s")
            print(f"  songs laid out: {written}; after the key change {again}")
    return met


if __name__ == "__main__":
    sys.exit(0 if main(sys.argv[1:]) else 1)
