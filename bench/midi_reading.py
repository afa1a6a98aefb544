"""How well MIDI files are read: chords found from notes, the tune among parts, the key, the spelling.

Run ``python -m bench.midi_reading``; each figure stands beside that of a plain rule.

- Chords: songs of ``tests/data`` played as MIDI in two ways without their chord texts, and each half bar in
  which one chord is played held against it. *Blocks* are close chords as we write them. *Broken* has broken
  eighths, a bass that walks into the next root, a tune of which half the notes lie outside the chord, a pad
  high above and drums, made up from fixed seeds. The rule: the lowest note at the start of the half bar is
  the root, and the third that sounds longer says major or minor. The weights were set on every ninth song,
  played in the same ways; those songs are left out.
- Tune: chorales of music21's corpus with their parts shuffled and their names gone, the soprano wanted; and
  the *broken* songs, which were looked at when the weights were set. The rule: the part with the highest mean
  pitch.
- Key: chorales (the last bass note, where it is the tonic of their signature) and fiddle tunes (the key of
  their ABC, where it is major or minor), beside music21's own analysis.
- Spelling: the chorales and the tunes in their written keys. The rule: sharps alone.

The corpus stays where music21 lies; its licence is not stated.
"""

import argparse
import random
import sys
import time
import warnings
from bisect import bisect_right
from collections import Counter

from bench._midi_material import (
    TUNE,
    as_midi,
    blocks,
    broken,
    chorales,
    fiddle_tunes,
    names_of,
    rows_of,
    songs,
)
from fifthwise.exchange.midi import read_midi
from fifthwise.theory import Key, quality_tones, read_note

TUNE_FILES = ("oneills1850/0001-0050.abc", "oneills1850/0501-0550.abc", "airdsAirs/book1.abc")
CHORDS_WANTED, TUNE_WANTED, SPELLED_WANTED = 0.85, 0.95, 0.97
SHARPS = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")


def halves(song):
    """Each half bar in which one chord is played, and that chord."""
    starts = [start for start, _, _ in song.chords]
    even = song.metre[0] % 2 == 0 and song.metre != (2, 4)
    for start, end in song.bars:
        middle = (start + end) / 2
        for low, high in ((start, middle), (middle, end)) if even else ((start, end),):
            at = bisect_right(starts, low) - 1
            if at >= 0 and song.chords[at][1] >= high and song.chords[at][2] is not None:
                yield low, high, song.chords[at][2]


def kind(quality):
    """The third, the fifth and the seventh of a quality, in semitones."""
    tones = {tone.steps: tone.semitones for tone in quality_tones(quality)}
    return tones.get(2), tones.get(4), tones.get(6)


def heard(data, song):
    """The chord that is read at each quarter from which one holds."""
    sheet, at, found = read_midi(data).sheet, song.bars[0][0], []
    for bar in sheet.bars:
        found += [(at + chord.at, chord.chord) for chord in bar.chords]
        at += bar.length
    return found


def plain(parts, low, high):
    """The plain rule's root, and whether its third is minor."""
    sounding = [
        (max(s, low), min(s + n, high), midi)
        for rows in parts.values()
        for s, n, midi in rows
        if s < high and s + n > low
    ]
    first = [midi for s, _, midi in sounding if s == low] or [midi for *_, midi in sounding]
    if not first:
        return None, None
    root = min(first) % 12
    length = Counter()
    for start, end, midi in sounding:
        length[(midi - root) % 12] += end - start
    return root, 3 if length[3] > length[4] else 4


def chord_bench(every):
    """The shares of half bars that are right, for each way of playing."""
    met = True
    for name, play in (("blocks", lambda song, _: blocks(song)), ("broken", broken)):
        count = Counter()
        for seed, song in enumerate(songs(every)):
            count += judged(song, play(song, seed))
        shares = {
            each: count[each] / count["all"]
            for each in ("root", "third", "whole", "plain root", "plain third")
        }
        told = ", ".join(f"{each} {share:.3f}" for each, share in shares.items())
        print(f"chords, {name}: {count['all']} half bars; {told}")
        met = met and shares["root"] >= CHORDS_WANTED
    return met


def judged(song, parts):
    """How many half bars are right in what way."""
    found = heard(as_midi(parts, song.metre, length=song.bars[-1][1]), song)
    starts = [start for start, _ in found]
    count = Counter()
    for low, high, chord in halves(song):
        place = bisect_right(starts, low) - 1
        ours = found[place][1] if place >= 0 else None
        wanted, root = kind(chord.quality), chord.root.pitch_class
        is_root = ours is not None and ours.root.pitch_class == root
        lowest, third = plain(parts, low, high)
        count += Counter(
            {
                "all": 1,
                "root": is_root,
                "third": is_root and kind(ours.quality)[0] == wanted[0],
                "whole": is_root and kind(ours.quality) == wanted,
                "plain root": lowest == root,
                "plain third": lowest == root and third == wanted[0],
            }
        )
    return count


def choice(parts):
    """Whether the tune is chosen, and whether the plain rule chooses it; its channel is ``TUNE``."""
    order = list(parts)
    found = read_midi(as_midi(parts))
    chosen = order[found.parts.index(found.chosen)]
    highest = max(order, key=lambda each: sum(midi for *_, midi in parts[each]) / len(parts[each]))
    return chosen == TUNE, highest == TUNE


def tune_bench(every, scores):
    rng = random.Random(5)
    sets = {
        "chorales": [dict(enumerate(map(rows_of, score.parts))) for score in scores],
        "broken songs": [broken(song, seed) for seed, song in enumerate(songs(every))],
    }
    met = True
    for name, made in sets.items():
        found = []
        for parts in made:
            order = list(parts)
            rng.shuffle(order)
            found.append(choice({each: parts[each] for each in order}))
        ours, rule = (sum(each) / len(found) for each in zip(*found, strict=True))
        print(f"tune, {name}: {len(found)} files; right {ours:.3f}; the highest part {rule:.3f}")
        met = met and ours >= TUNE_WANTED
    return met


def chorale_key(score):
    """The major or minor key that has the signature and ends on the last bass note, where there is one."""
    last = read_note(score.parts[-1].flatten().notes[-1].pitches[0].name.replace("-", "b"))
    signature = next((s.sharps for s in score.parts[0].flatten().getElementsByClass("KeySignature")), None)
    return next((key for mode in ("major", "minor") if (key := Key(last, mode)).signature == signature), None)


def tune_key(score):
    """The key of a tune's ABC, where it is major or minor."""
    keys = list(score.parts[0].flatten().getElementsByClass("Key"))
    if not keys or keys[0].mode not in ("major", "minor"):
        return None
    return Key(read_note(keys[0].tonic.name.replace("-", "b")), keys[0].mode)


def theirs(score):
    """The key that music21's analysis finds."""
    found = score.analyze("key")
    return Key(read_note(found.tonic.name.replace("-", "b")), found.mode)


def key_bench(sets):
    for name, rows in sets.items():
        right, other, named, second, sure, sure_right = 0, 0, 0, 0, 0, 0
        for score, key in rows:
            if key is None:
                continue
            named += 1
            found = read_midi(as_midi(dict(enumerate(map(rows_of, score.parts))))).found
            same = (found.key.tonic.pitch_class, found.key.mode) == (key.tonic.pitch_class, key.mode)
            next_best = (found.runner_up.tonic.pitch_class, found.runner_up.mode) == (
                key.tonic.pitch_class,
                key.mode,
            )
            right, second = right + same, second + (same or next_best)
            sure, sure_right = sure + (found.surety >= 0.5), sure_right + (found.surety >= 0.5 and same)
            m21 = theirs(score)
            other += (m21.tonic.pitch_class, m21.mode) == (key.tonic.pitch_class, key.mode)
        print(
            f"key, {name}: {named}; right {right / named:.3f}, or the runner-up {second / named:.3f};"
            f" of the {sure} sure ones {sure_right / max(sure, 1):.3f}; music21 {other / named:.3f}"
        )


def spelling_bench(sets):
    met = True
    for name, rows in sets.items():
        right = rule = total = 0
        for score, key in rows:
            if key is None or abs(key.signature) > 7:
                continue
            for part in score.parts:
                names = names_of(part)
                found = read_midi(as_midi({0: rows_of(part)}), key=key)
                ours = [str(n.pitches[-1]) for bar in found.sheet.bars for n in bar.notes if not n.goes_on]
                if len(ours) == len(names):
                    right += sum(a == b for a, b in zip(ours, names, strict=True))
                    rule += sum(_sharp(name) for name in names)
                    total += len(names)
        print(f"spelling, {name}: {total} notes; right {right / total:.4f}; sharps alone {rule / total:.4f}")
        met = met and right / total >= SPELLED_WANTED
    return met


def _sharp(name):
    return "b" not in name and not name.startswith(("E#", "B#")) and "##" not in name


def main(arguments=()):
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--every", type=int, default=8, help="read every so many songs and chorales")
    options = parser.parse_args(arguments)
    warnings.simplefilter("ignore")
    start = time.process_time()
    met = chord_bench(options.every)
    scores = list(chorales(options.every))
    met = tune_bench(options.every, scores) and met
    sets = {
        "chorales": [(score, chorale_key(score)) for score in scores],
        "fiddle tunes": [(score, tune_key(score)) for score in fiddle_tunes(TUNE_FILES)],
    }
    key_bench(sets)
    met = spelling_bench(sets) and met
    print(f"{time.process_time() - start:.0f} s of processor time")
    return met


if __name__ == "__main__":
    sys.exit(0 if main(sys.argv[1:]) else 1)
