"""Find the keys of pop songs from their chords, and print how often the annotated tonic is found.

Run ``python -m bench.key_finder``. The 370 songs of ``tests/data`` in five parts (seed 1): the keys of each
part are found with weights trained on the other four. The first annotated tonic counts. How much the
weights are held back is chosen inside the four parts each time. Which kinds of evidence there are, and what a
move costs, was chosen on parts 2 to 5; part 1 played no role in it. ``--train`` writes the weights that the
package carries, trained on all songs, and measures nothing.
"""

import random
import statistics
import sys
from collections import Counter
from pathlib import Path

import fifthwise.theory
from bench._key_training import HELD_BACK, as_sheets, sections_of, train
from fifthwise.theory import find_key
from fifthwise.theory.key_finder import SURE
from tests.harte import pop_songs

PARTS, SEED = 5, 1
TRIED = (0.1, 0.3, 1.0)  # how much the weights may be held back
WANTED_FIRST, WANTED_TWO = 0.82, 0.92
TABLE = Path(fifthwise.theory.__file__).with_name("key_weights.toml")
HEAD = """\
# How much each piece of evidence speaks for a tonic, by semitones of its root above that tonic, 0 to 11; a
# step counts its first chord, and says how many semitones higher the second stands. Written by
# 'python -m bench.key_finder --train' from the songs of tests/data/pop-chords-cc0.json; not edited by hand.

[weights]
"""


def parts(songs, seed=SEED):
    """The songs in five parts, as their places."""
    places = list(range(len(songs)))
    random.Random(seed).shuffle(places)
    return [places[part::PARTS] for part in range(PARTS)]


def without(songs, part):
    """The songs that are not in a part."""
    left_out = set(part)
    return [song for place, song in enumerate(songs) if place not in left_out]


def measured(songs, weights):
    """For each song: what was found, and the tonics of its sections as annotated."""
    for song in songs:
        sections, tonics, _ = sections_of(song)
        yield find_key(sections, weights), tonics


def right(found, tonic, choices):
    """Whether the tonic is among the first choices."""
    named = (found.first, found.runner_up)[:choices]
    return tonic in [key.tonic.pitch_class for key in named]


def share_right(songs, weights, choices=1):
    """How many songs of all have their first tonic among the choices."""
    return statistics.fmean(right(found, tonics[0], choices) for found, tonics in measured(songs, weights))


def chosen(songs):
    """How much to hold back, by parts of these songs alone."""

    def inner(held_back):
        return statistics.fmean(
            share_right([songs[at] for at in part], train(without(songs, part), held_back))
            for part in parts(songs, SEED + 1)
        )

    return max(TRIED, key=inner)


def longest_root(sections):
    """The baseline: the root that lasts longest is the tonic."""
    lasting = Counter()
    for section in sections:
        for each in section:
            lasting[each.chord.root.pitch_class] += each.length
    return lasting.most_common(1)[0][0]


BASELINES = {
    "the root that lasts longest": longest_root,
    "the last chord": lambda sections: sections[-1][-1].chord.root.pitch_class,
    "the first chord": lambda sections: sections[0][0].chord.root.pitch_class,
}


def write_weights():
    """Train on all songs and write the package's table."""
    rows = train(pop_songs(), HELD_BACK)
    kept = {row: [round(float(weight), 2) + 0.0 for weight in found] for row, found in rows.items()}
    lines = [f'"{row}" = {found}' for row, found in sorted(kept.items()) if any(found)]
    TABLE.write_text(HEAD + "\n".join(lines) + "\n", encoding="utf-8")
    print(f"{len(lines)} rows of 12 weights: {TABLE}")


def tell_sureness(results):
    """How often the first choice is right where it is told as sure, and where not."""
    for name, group in (
        (f"sure (likelihood {SURE} and more)", [r for r in results if r[0].is_sure]),
        ("unsure", [r for r in results if not r[0].is_sure]),
    ):
        if group:
            share = statistics.fmean(right(found, tonics[0], 1) for found, tonics in group)
            print(f"  {name}: {len(group)} songs, {share:.3f} right")


def tell_moves(results):
    """How well songs that move are told from those that stay, where the first key is right."""
    table = Counter(
        (len(set(tonics)) > 1, found.moves) for found, tonics in results if right(found, tonics[0], 1)
    )
    print(
        f"  songs that move: {table[True, True]} told, {table[True, False]} missed; "
        f"that stay: {table[False, False]}, told as moving {table[False, True]}"
    )
    pairs = [
        (key.tonic.pitch_class, found.first.tonic.pitch_class, tonic)
        for found, tonics in results
        for key, tonic in zip(found.by_section, tonics, strict=True)
    ]
    print(f"  sections in their annotated key: {statistics.fmean(a == c for a, _, c in pairs):.3f}; "
          f"with the song's key everywhere {statistics.fmean(b == c for _, b, c in pairs):.3f}")  # fmt: skip


def main():
    songs = pop_songs()
    everything, sheets = [], []
    for number, part in enumerate(parts(songs), start=1):
        held_back = chosen(without(songs, part))
        weights = train(without(songs, part), held_back)
        results = list(measured([songs[at] for at in part], weights))
        one, two = (statistics.fmean(right(f, t[0], n) for f, t in results) for n in (1, 2))
        print(f"part {number}: held back {held_back}, first {one:.3f}, first two {two:.3f}", flush=True)
        everything += results
        for at in part:
            sheet = as_sheets(songs[at])[2]
            sheets.append((find_key(sheet, weights), sections_of(songs[at])[1]))
    for name, results in (("as annotated", everything), ("sections once, chords equally long", sheets)):
        one, two = (statistics.fmean(right(f, t[0], n) for f, t in results) for n in (1, 2))
        print(f"{name}: first {one:.3f} (wanted {WANTED_FIRST}), first two {two:.3f} (wanted {WANTED_TWO})")
        tell_sureness(results)
    tell_moves(everything)
    for name, guess in BASELINES.items():
        told = [guess(sections_of(song)[0]) == sections_of(song)[1][0] for song in songs]
        print(f"{name}: {statistics.fmean(told):.3f}")
    one, two = (statistics.fmean(right(f, t[0], n) for f, t in everything) for n in (1, 2))
    return one >= WANTED_FIRST and two >= WANTED_TWO


if __name__ == "__main__":
    if "--train" in sys.argv:
        write_weights()
    else:
        sys.exit(0 if main() else 1)
