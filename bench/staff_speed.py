"""How long a tune takes to engrave: ``python bench/staff_speed.py``.

A 32-bar tune of eighths and quarters with a chord a bar: as the song page has it, for a wide screen and for a
telephone, and as print has it. Processor time of this process, the median of the rounds, each in another key;
the first round, which imports Verovio and reads its font, is told by itself.
"""

import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from fifthwise.chart import parse, rekey
from fifthwise.page import PageView
from fifthwise.page.staff import staff_html, staff_of_chart, staff_record
from fifthwise.theory import NoteName

ROUNDS = 15
WANTED_MS = 150  # to a song page with its staff, seen for the first time
TUNES = ("1 (2 3) 4 5", "(5 4) (3 2) 1 -", "3 3 (b3 2) 1", "5, - (6, 7,) 1")
HEAD = "---\ntitle: Bench\nkey: G\noctave: 4\n---\n# tune\n"


def main() -> bool:
    """Print the figures; whether they are met."""
    lines = "".join(f"1 | 4 | 6- | 57\ntune: {' | '.join(TUNES)}\n" for _ in range(8))
    chart = parse(HEAD + lines)
    ways = {"a screen and a telephone": lambda staff: str(staff_html(staff)), "paper": staff_record}
    met = True
    for name, made in ways.items():
        taken = [_round(chart, made, place) for place in range(ROUNDS + 1)]
        usual = statistics.median(taken[1:])
        print(f"32 bars for {name}: first {taken[0]:.0f} ms, then {usual:.0f} ms (wanted {WANTED_MS})")
        met = met and usual <= WANTED_MS
    page = str(staff_html(_staff(chart, 0)))
    print(f"Both pictures together: {len(page) / 1000:.0f} kB")
    return met


def _staff(chart, place):
    staff = staff_of_chart(rekey(chart, NoteName(place % 12 - 5)), PageView())
    assert staff is not None
    return staff


def _round(chart, made, place):
    """Milliseconds of processor time for the tune in one key."""
    start = time.process_time()
    made(_staff(chart, place))
    return (time.process_time() - start) * 1000


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
