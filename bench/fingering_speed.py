"""Finger lines of growing length, and find the same paths with networkx.

Run ``python -m bench.fingering_speed``. The lines are fiddle tunes of music21's corpus, one after the other
(``tests/outside/fiddle_tunes.py``). Processor time.

- Cold: an instrument's hands and moves are made anew, as for the first line after the program starts.
- Warm: they are there, as for every later line.
- networkx gets the same graph: a node for each hand of each note, an edge for each move, with its cost from
  our tables, and finds the shortest path by Dijkstra's method. Both must find the same cost. Where a level
  leaves a note one hand or two, there is little to search; the ratio counts in all positions.
"""

import gc
import statistics
import sys
import time
from dataclasses import replace
from functools import partial
from itertools import chain, islice

import networkx
import numpy as np

from fifthwise.strings import instrument_of
from fifthwise.strings.fingering import COSTS, Line, finger_line
from fifthwise.strings.fingering.finger import _layers
from fifthwise.strings.fingering.neck import _neck, neck_of
from fifthwise.strings.fingering.search import best_path
from tests.outside.fiddle_tunes import files_of, tunes_of

VIOLIN = instrument_of("violin")
SHORT, LONG = 64, 5000
WANTED_MS = {SHORT: 3.0, LONG: 250.0}
WANTED_RATIO = 50
BESIDE = 1000  # a graph of all positions takes networkx half a gigabyte for these
GROWTH = (1250, 2500, 5000, 10000)
MOST_GROWTH = 1.3  # ten thousand notes beside eight times 1,250
LEVELS = ("first", "third", "all")


def long_line(notes, level):
    """So many notes of tunes, in quarters from the start; what the level cannot play is left out."""
    tunes = chain.from_iterable(tunes_of(path) for path in files_of("ryansMammoth"))
    playable = (note for tune in tunes for note in tune.line.notes if can_play(note, level))
    found, at = [], 0
    for note in islice(playable, notes):
        found.append(replace(note, starts_at=at))
        at += note.length
    return Line(tuple(found))


def can_play(note, level):
    neck = neck_of(VIOLIN, level, COSTS, harmonics=False)
    if len(note.pitches) > 2:
        return False
    return bool(neck.hands[neck.number((note,), long=False, where="")].hands)


def milliseconds(work, times, *, cold):
    """The median of some runs; ``cold`` forgets the neck before each."""
    found = []
    for _ in range(times):
        if cold:
            _neck.cache_clear()
        gc.collect()
        start = time.process_time()
        work()
        found.append(1000 * (time.process_time() - start))
    return statistics.median(found)


def graph_of(layers):
    """The layers as a graph, and how much was added to each layer's edges: Dijkstra wants none below 0."""
    tables = [layers.hands(0).costs[None, :]]
    tables += [layers.moves(at) + layers.hands(at).costs[None, :] for at in range(1, len(layers))]
    lift = -min(0.0, *(float(table.min()) for table in tables))
    start = time.process_time()
    graph = networkx.DiGraph()
    for at, table in enumerate(tables):
        rows, columns = np.nonzero(np.isfinite(table))
        costs = (table[rows, columns] + lift).tolist()
        edges = zip(rows.tolist(), columns.tolist(), costs, strict=True)
        graph.add_weighted_edges_from(((at, row), (at + 1, column), cost) for row, column, cost in edges)
    last = len(tables)
    graph.add_weighted_edges_from(((last, row), "end", 0) for row in range(tables[-1].shape[1]))
    return graph, lift * last, time.process_time() - start


def show_speed():
    """Each level, short and long, cold and warm; whether the targets are met."""
    met = True
    for level in LEVELS:
        for notes, times in ((SHORT, 30), (LONG, 5)):
            work = partial(finger_line, long_line(notes, level), VIOLIN, level)
            cold, warm = (milliseconds(work, times, cold=cold) for cold in (True, False))
            wanted = WANTED_MS[notes]
            print(f"{level}, {notes} notes: {cold:.2f} ms cold, {warm:.2f} ms warm (wanted {wanted:g} warm)")
            met = met and warm < wanted
    return met


def show_growth():
    """Ten thousand notes take about eight times as long as 1,250."""
    took = {}
    for notes in GROWTH:
        work = partial(finger_line, long_line(notes, "third"), VIOLIN, "third")
        work()
        took[notes] = milliseconds(work, 5, cold=False)
    each = ", ".join(f"{notes}: {1000 * ms / notes:.1f}" for notes, ms in took.items())
    growth = took[GROWTH[-1]] / took[GROWTH[0]] / (GROWTH[-1] / GROWTH[0])
    print(
        f"microseconds a note, third, by length: {each}; growth {growth:.2f} (wanted at most {MOST_GROWTH})"
    )
    return growth <= MOST_GROWTH


def show_networkx(level):
    """The same cost, and how many times as long, from hands and moves that are there to the path."""
    line = long_line(BESIDE, level)
    work = partial(finger_line, line, VIOLIN, level)
    found, whole = work(), milliseconds(work, 9, cold=False)
    places = tuple((note,) for note in line.notes)
    layers = _layers(places, line.tempo_bpm, VIOLIN, level, COSTS, harmonics=False)
    search = milliseconds(partial(best_path, layers), 9, cold=False)
    graph, lift, build = graph_of(layers)
    theirs = milliseconds(
        partial(networkx.shortest_path, graph, (0, 0), "end", weight="weight"), 3, cold=False
    )
    cost = networkx.shortest_path_length(graph, (0, 0), "end", weight="weight") - lift
    same = abs(cost - found.cost) < 1e-6 * max(1.0, cost)
    ratio = (1000 * build + theirs) / whole
    print(f"{level}, {BESIDE} notes, {graph.number_of_edges()} edges; the same cost: {same}")
    print(f"  ours: {whole:.1f} ms from line to fingers, {search:.1f} ms of it the path")
    print(f"  networkx: {1000 * build:.0f} ms for the graph, {theirs:.0f} ms for the path")
    print(f"  {ratio:.0f} times as fast; {theirs / search:.0f} times for the path alone")
    return same, ratio


def main():
    met = show_speed()
    met = show_growth() and met
    beside = {level: show_networkx(level) for level in LEVELS}
    print(f"wanted in all positions: {WANTED_RATIO} times")
    return met and all(same for same, _ in beside.values()) and beside["all"][1] >= WANTED_RATIO


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
