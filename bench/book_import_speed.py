"""Take a folder of 10,000 charts into an empty book on one core, beside reading the same charts alone.

Run ``python bench/book_import_speed.py``. The figure that counts is the ratio: what finding, matching and
keeping the charts adds to reading them. Each chart has 16 bars with words; the book is a file of SQLite's.
Ours is timed in one run from an empty book; reading alone in the same process, from the same texts.
"""

import argparse
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))  # for the made-up bars of the chart's bench

import random

from bench.chart_speed import KEYS, bar
from fifthwise.book import import_folder, open_book, songs
from fifthwise.chart import parse

COUNT = 10_000
WANTED = 150  # charts a second


def made_up_chart(seed):
    """The text of one chart of 16 bars with words."""
    chance = random.Random(seed)
    head = f"title: Song {seed}\nby: nobody\nkey: {chance.choice(KEYS)}\ntempo: {60 + seed % 90}\n"
    lines = (" | ".join(bar(chance) for _ in range(4)) + "\nwords: Down along the quay\n" for _ in range(4))
    return f"---\n{head}---\n# verse\n{''.join(lines)}"


def timed(work):
    start = time.process_time()
    found = work()
    return time.process_time() - start, found


def main(arguments=()):
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--count", type=int, default=COUNT, help="how many charts")
    count = parser.parse_args(arguments).count
    texts = [made_up_chart(seed) for seed in range(count)]
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch, "charts")
        folder.mkdir()
        for number, text in enumerate(texts):
            (folder / f"{number}.chart.md").write_text(text, "utf-8")
        with open_book(Path(scratch, "band.sqlite")) as book:
            start = time.perf_counter()
            seconds, report = timed(lambda: import_folder(book, folder))
            by_clock = time.perf_counter() - start
            again, second = timed(lambda: import_folder(book, folder))
            assert len(report.kept) == len(second.unchanged) == len(songs(book)) == count
    alone, _ = timed(lambda: [parse(text) for text in texts])
    print(f"{count} charts of 16 bars; processor time, {by_clock:.0f} s by the clock for the import")
    print(f"import: {count / seconds:.0f} charts a second (wanted {WANTED}); unchanged: {count / again:.0f}")
    print(
        f"reading alone: {count / alone:.0f} a second; the import takes {seconds / alone:.2f} times as long"
    )
    return count / seconds >= WANTED


if __name__ == "__main__":
    sys.exit(0 if main(sys.argv[1:]) else 1)
