"""Read, unfold and write distinct charts of 60 bars on one core, and print how many a second.

Run ``python bench/chart_speed.py``. Each chart has its own title, key, chords and tune, and is read once.

- From empty caches: all caches are emptied before each single chart, so every chord text of it is new.
- A book: the caches are emptied once. From then on the reader keeps chord texts by key and tune words, as it
  does when it reads a book of songs; whole charts are kept nowhere.
"""

import importlib
import pkgutil
import random
import statistics
import sys
import time

import fifthwise.chart
import fifthwise.theory
from fifthwise.chart import parse, unfold, write_chart

COUNT = 400
WANTED = 300  # charts read a second
KEYS = ("C", "G", "D", "A", "E", "F", "Bb", "Eb", "Ab", "F# minor", "C minor", "D mixolydian")
ROOTS = ("1", "2-", "3-", "4", "5", "6-", "b7", "4-", "2", "#4o")
ENDS = ("", "", "", "7", "/1", "/3", ".push", ".hold")
CELLS = ("3 - 5 0", "(1 2) 3 - 1'", "0", "6, (5, 6,) 1 -", "(3 2 1) 2 - -")
FORM = "intro, verse 1, chorus, verse 2, bridge, [key +2], chorus, out"
SECTIONS = (("intro", 4), ("verse", 16), ("chorus", 16), ("bridge", 8), ("out", 16))


def made_up_chart(seed):
    """The text of one chart: five sections with words, a tune in the verse and a form."""
    chance = random.Random(seed)
    named = f"title: Song {seed}\nby: nobody\nkey: {chance.choice(KEYS)}\ntempo: {60 + seed % 90}\n"
    parts = [f"---\n{named}feel: shuffle\noctave: 4\nform: {FORM}\n---\n"]
    for name, bars in SECTIONS:
        parts.append(f'# {name}  "cue {seed}"\n')
        for _ in range(bars // 4):
            parts.append(" | ".join(bar(chance) for _ in range(4)) + "\n")
            if name == "verse":
                parts.append(f"tune: {' | '.join(chance.choice(CELLS) for _ in range(4))}\n")
                parts.append("words: Down along the quay\nwords: Every lamp alight\n")
    return "".join(parts)


def bar(chance):
    """One bar: mostly one chord, otherwise two or three."""
    one, two, three = (chance.choice(ROOTS) + chance.choice(ENDS) for _ in range(3))
    return chance.choice((one, one, one, f"{one} {two}", f"{one} / {two} {three}"))


def empty_caches():
    """Forget whatever the chart and the theory have kept from earlier calls."""
    for package in (fifthwise.theory, fifthwise.chart):
        for info in pkgutil.iter_modules(package.__path__, f"{package.__name__}."):
            for value in vars(importlib.import_module(info.name)).values():
                if hasattr(value, "cache_clear"):
                    value.cache_clear()


def rate(work, items, *, forget):
    """Items a second; ``forget`` empties the caches before each one, outside the clock."""
    empty_caches()
    seconds = []
    for item in items:
        if forget:
            empty_caches()
        start = time.perf_counter()
        work(item)
        seconds.append(time.perf_counter() - start)
    return 1 / statistics.fmean(seconds)


def main():
    texts = [made_up_chart(seed) for seed in range(COUNT)]
    charts = [parse(text) for text in texts]
    size = statistics.fmean(len(text) for text in texts)
    print(f"{COUNT} distinct charts of 60 bars, {size:.0f} characters each")
    new, book = rate(parse, texts, forget=True), rate(parse, texts, forget=False)
    print(f"read: {new:.0f} charts a second from empty caches, {book:.0f} as a book (wanted {WANTED})")
    print(f"unfold: {rate(unfold, charts, forget=False):.0f} a second, each to its whole form")
    print(f"write: {rate(write_chart, charts, forget=False):.0f} a second")
    return new >= WANTED


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
