"""Write and read lead sheets as MusicXML, beside music21, and bring 370 songs out and in again.

Run ``python -m bench.musicxml_speed``. The sheets of 32 bars differ in key, chords, tune and words; each is
written once, from a chart that has been read, with whatever the earlier ones left in caches; music21 writes
the same sheets, as it has read them, and reads them from our files. Processor time, medians.
"""

import random
import statistics
import sys
import time
import warnings

from fifthwise.chart import parse, unfold
from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.musicxml import read_musicxml, write_musicxml
from tests.exchange.test_lead_sheet import chords
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

COUNT = 60
REFERENCE = 10  # sheets that music21 writes and reads
BARS = 32
WANTED_MS = 3.0  # to write one
KEYS = ("C", "G", "D", "A", "E", "F", "Bb", "Eb", "Ab", "F# minor", "C minor", "D mixolydian")
CHORDS = ("1", "2-7", "3-", "4", "57", "6-", "b7", "4-", "#4o7", "57(b9)", "1/3", "5/7", "2ø7 57")
CELLS = (
    "3 - 5 0",
    "(1 2) 3 - 1'",
    "0 (5 6) 1' -",
    "6, (5, 6,) 1 -",
    "(3 2 1) 2 - -",
    "1 (2 3) - (4 5)",
    "5 (- 4) 3 2",
)


def lead_sheet(seed):
    """A chart of 32 bars with chords, a tune and words."""
    chance = random.Random(seed)
    lines = [f"---\ntitle: Sheet {seed}\nkey: {chance.choice(KEYS)}\ntempo: 96\noctave: 4\n---"]
    for section in ("verse", "chorus"):
        lines.append(f"# {section}")
        for _ in range(BARS // 8):
            lines.append(" | ".join(chance.choice(CHORDS) for _ in range(4)))
            lines.append("tune: " + " | ".join(chance.choice(CELLS) for _ in range(4)))
            lines.append("words: Down a-long the | quay to- | night where the | lamps burn")
    return parse("\n".join(lines))


def milliseconds(work, items):
    """The median time of one."""
    seconds = []
    for item in items:
        start = time.process_time()
        work(item)
        seconds.append(time.process_time() - start)
    return 1000 * statistics.median(seconds)


def come_back():
    """How many songs have the same chords at their times, and as many bars, in letters and in numbers."""
    kept = 0
    songs = pop_songs()
    for place, song in enumerate(songs):
        chart = parse(number_chart(song, f"song {place}"))
        kept += all(same(chart, write_musicxml(chart, as_numbers=numbers)) for numbers in (False, True))
    return kept, len(songs)


def same(chart, data):
    """Whether a file plays what the chart plays."""
    before, after = unfold(chart), unfold(chart_of_sheet(read_musicxml(data).sheet, chart.numbering).chart)
    return chords(after) == chords(before) and len(after.bars) == len(before.bars)


def main():
    """Print the figures; False where one misses what is wanted."""
    warnings.simplefilter("ignore")
    from music21 import converter
    from music21.musicxml.m21ToXml import GeneralObjectExporter

    charts = [lead_sheet(seed) for seed in range(COUNT)]
    write_musicxml(charts[0])  # imports
    written = milliseconds(write_musicxml, charts)
    files = [write_musicxml(chart) for chart in charts]
    read = milliseconds(read_musicxml, files)
    made = milliseconds(lambda file: chart_of_sheet(read_musicxml(file).sheet), files)
    converter.parseData(files[0], format="musicxml")
    theirs_read = milliseconds(lambda file: converter.parseData(file, format="musicxml"), files[:REFERENCE])
    scores = [converter.parseData(file, format="musicxml") for file in files[:REFERENCE]]
    theirs = milliseconds(lambda score: GeneralObjectExporter(score).parse(), scores)
    print(f"{COUNT} lead sheets of {BARS} bars, {statistics.fmean(map(len, files)) / 1000:.0f} kB each")
    print(
        f"write: {written:.2f} ms (wanted {WANTED_MS}); music21 {theirs:.0f} ms, {theirs / written:.0f} times"
    )
    print(f"read: {read:.2f} ms; music21 {theirs_read:.0f} ms, {theirs_read / read:.0f} times")
    print(f"read and made into a chart: {made:.2f} ms")
    kept, songs = come_back()
    print(
        f"out and in again: {kept} of {songs} songs with the same chords and bars, in letters and in numbers"
    )
    return written < WANTED_MS and kept == songs


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
