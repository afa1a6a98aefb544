"""Short charts that the page tests share."""

from fifthwise.chart import Chart, parse

LANTERN = """\
---
title: Paper Lantern Road
key: Eb
tempo: 96
feel: straight
octave: 4
form: intro, verse 1, chorus, verse 2, chorus, [key +2], chorus
---
# intro  "hook, drums from bar 3"
|: 1 | 4 | 6- | 5/7 :|

# verse  "@fiddle chops on 2 and 4"
[pickup 1] 0
tune: 5,
1 | 1/3 | 4 | 4 5
tune: 3 3 (2 1) 2 | 3 - 5 - | 6 (5 6) 1' - | 6 - 5 0
words: Down along the lantern road the river turns for home
words: Every lamp along the quay is burning for someone
6-7 | 5/7 | 4maj7 | 5sus 5

# chorus
|: 4 | 5.push | 6- / 5/7 1 | 4 / 1/3 2-7
4 | 5 | [1.] 6- | b7 5 :| [2.] 2-7 5 | 1.hold ||
"""


def song(body: str, **head: str) -> Chart:
    """A song with a few bars; the head may be told, ``key`` is C if it is not."""
    fields = {"title": "A Song", "key": "C"} | head
    lines = "\n".join(f"{name}: {text}" for name, text in fields.items())
    return parse(f"---\n{lines}\n---\n{body}\n")


def lantern() -> Chart:
    """A song with most of what a page draws."""
    return parse(LANTERN)


def long_song(bars: int) -> Chart:
    """A song of so many bars, four a line, eight lines a section at most, every third bar split."""
    chords = ("1", "6-7 5/7", "4maj7", "2-7", "b7 4", "1/3")
    lines = [" | ".join(chords[(i + j) % len(chords)] for j in range(4)) for i in range(0, bars, 4)]
    sections = [
        f"# part {n + 1}\n" + "\n".join(lines[n * 4 : n * 4 + 4]) for n in range((len(lines) + 3) // 4)
    ]
    return song("\n".join(sections), tempo="120", feel="shuffle")
