"""Make lines over charts of 64 bars, and print the milliseconds that each takes.

Run ``python -m bench.lines_speed``. The charts are real progressions, the songs of ``tests/data``
that play 60 to 68 bars, unfolded beforehand. Processor time, the median of the charts.

- New: the necks (hands and moves) are forgotten before each chart, as for the first song after the start.
- Kept: they are there from other songs; the same chart is made again.
"""

import statistics
import sys
import time

from fifthwise.chart import parse, unfold
from fifthwise.strings import instrument_of
from fifthwise.strings.fingering.neck import _neck
from fifthwise.strings.lines import bass_line, comp, guide_line, pad, section
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

FEWEST, MOST = 60, 68
WANTED_MS = 50  # a comp of 64 bars in positions up to third, necks forgotten
VIOLIN, VIOLA, CELLO = map(instrument_of, ("violin", "viola", "cello"))
FOUR = ((CELLO, "third"), (VIOLA, "third"), (VIOLIN, "third"), (VIOLIN, "third"))
KINDS = {
    "comp, first position": lambda chart, timeline: comp(chart, timeline, VIOLIN),
    "comp, up to third": lambda chart, timeline: comp(chart, timeline, VIOLIN, "third"),
    "comp, all positions": lambda chart, timeline: comp(chart, timeline, VIOLIN, "all"),
    "guide line": lambda chart, timeline: guide_line(chart, timeline, VIOLIN, "third"),
    "pad": lambda chart, timeline: pad(chart, timeline, VIOLIN, "third"),
    "walking bass": lambda chart, timeline: bass_line(chart, timeline, CELLO, "third", style="walking"),
    "section of four": lambda chart, timeline: section(chart, timeline, FOUR),
}
TIMED = "comp, up to third"


def charts_of_length():
    """Charts and timelines of the songs that play some 64 bars."""
    for place, song in enumerate(pop_songs()):
        chart = parse(number_chart(song, f"song {place}"))
        timeline = unfold(chart)
        if FEWEST <= len(timeline.bars) <= MOST:
            yield chart, timeline


def milliseconds(make, charts, *, forget):
    """The median over the charts."""
    taken = []
    for chart, timeline in charts:
        if forget:
            _neck.cache_clear()
        else:
            make(chart, timeline)
        start = time.process_time()
        make(chart, timeline)
        taken.append(1000 * (time.process_time() - start))
    return statistics.median(taken)


def main():
    charts = list(charts_of_length())
    chords = statistics.mean(len(timeline.entries) for _, timeline in charts)
    print(f"{len(charts)} songs of {FEWEST} to {MOST} bars, {chords:.0f} chords each; milliseconds, median")
    met = True
    for name, make in KINDS.items():
        new, kept = (milliseconds(make, charts, forget=forget) for forget in (True, False))
        wanted = f"  (wanted new: {WANTED_MS})" if name == TIMED else ""
        print(f"{name:28}  new {new:7.1f}   kept {kept:7.1f}{wanted}")
        met = met and (name != TIMED or new < WANTED_MS)
    return met


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
