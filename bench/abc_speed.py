"""Read 4,248 folk tunes in ABC, to lead sheets and on to charts, beside music21 on the same tunes.

Run ``python -m bench.abc_speed``; with ``--all`` music21 reads every tune, and each is compared, which takes
minutes; else a seeded sample of them. The tunes are those of music21's corpus (airdsAirs, oneills1850,
ryansMammoth), read where they lie. Processor time of one run on one core.
"""

import random
import sys
import time
import warnings
from collections import Counter

from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.abc import read_abc
from tests.exchange.abc.corpus import SAME, m21_score, tune_texts, why

SAMPLE = 300
WANTED = 12  # times as fast as music21, to charts


def seconds(work, items):
    """The processor time of all together."""
    start = time.process_time()
    for item in items:
        work(item)
    return time.process_time() - start


def sheet(text):
    """The lead sheet of a tune's text."""
    return read_abc(text).tunes[0].sheet


def main(argv=()):
    """Print the figures; whether charts come as many times as fast as is wanted."""
    warnings.simplefilter("ignore")
    texts = [text for _, text in tune_texts()]
    some = texts if "--all" in argv else random.Random(1).sample(texts, SAMPLE)
    to_sheets = seconds(sheet, texts) / len(texts)
    to_charts = seconds(lambda text: chart_of_sheet(sheet(text)), texts) / len(texts)
    theirs = seconds(m21_score, some) / len(some)
    print(
        f"{len(texts)} tunes, ours: {1000 * to_sheets:.2f} ms a lead sheet, {1000 * to_charts:.2f} ms a chart"
    )
    print(f"music21, {len(some)} tunes: {1000 * theirs:.1f} ms a tune")
    print(f"lead sheets {theirs / to_sheets:.0f} times as fast, charts {theirs / to_charts:.0f} times")
    found = Counter(why(text) for text in some)
    for reason, count in found.most_common():
        print(f"  {count:5} {reason or 'no reason known'}")
    return theirs / to_charts >= WANTED and found[None] <= len(some) / 100 and found[SAME] > len(some) / 2


if __name__ == "__main__":
    sys.exit(not main(sys.argv[1:]))
