"""Write 370 songs in each hand in which number sheets are typed, read them back, and count what came of it.

Run ``python -m bench.number_sheets``; ``--every N`` takes every Nth song. Bars that a hand cannot hold
(another metre than the song's, chords of unequal length) are left out before; so is every bass where the
slash parts bars. The rules and weights were set while looking at every tenth song.

- right: the same chords, bars and lengths, and nothing said to be in doubt;
- right, asked: the same, and some point said to be in doubt;
- wrong, said: another chart or faults, and a point said to be in doubt or a fault told;
- WRONG: another chart, and nothing said.
"""

import sys
import time
from collections import Counter

from fifthwise.chart import read_chart
from fifthwise.exchange.numbers import read_number_sheet
from tests.exchange.number_sheets import HANDS, simple, sounds, write_number_sheet
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

OUTCOMES = ("right", "right, asked", "wrong, said", "WRONG")


def outcome(wanted, hand):
    """What came of one song in one hand, and the points that were open."""
    read = read_number_sheet(write_number_sheet(wanted, hand), "song.txt")
    same = not read.faults and sounds(read.chart) == sounds(wanted)
    said = read.guess.doubtful or bool(read.faults)
    return OUTCOMES[(not same) * 2 + (said if same else not said)], read


def main() -> bool:
    every = int(sys.argv[sys.argv.index("--every") + 1]) if "--every" in sys.argv else 1
    charts = [read_chart(number_chart(song, "song")).chart for song in pop_songs()[::every]]
    start, bad = time.process_time(), 0
    print(f"{'hand':32}" + "".join(f"{name:>14}" for name in OUTCOMES))
    for hand in HANDS:
        counts: Counter[str] = Counter(outcome(simple(chart, hand), hand)[0] for chart in charts)
        bad += counts["WRONG"]
        print(f"{hand:32}" + "".join(f"{counts[name]:14}" for name in OUTCOMES), flush=True)
    sheets = len(charts) * len(HANDS)
    print(
        f"{bad} of {sheets} wrong and not said; {sheets / (time.process_time() - start):.0f} sheets a second"
    )
    return bad <= sheets / 100


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
