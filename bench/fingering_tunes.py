"""Finger every fiddle tune of two old collections, and hold the fingers against those printed in one.

Run ``python -m bench.fingering_tunes``. The tunes come with music21 (``tests/outside/fiddle_tunes.py`` says
how they are read); over 3,081 notes of 458 of them stands a digit, a violinist's finger. Nothing is tuned on
them.

A digit is printed where an editor wants one: most say that a fourth finger and not the open string is meant.
So agreement here is agreement where there is a choice, and a rule that takes open strings gives hardly a 4.
Two such rules stand beside the search, both in first position:

- by letters: the highest string that has the note, the finger by the note's letter, open where it can be;
- nearest: the string nearest to that of the note before, of two the lower, the finger by the note's letter.
"""

import sys
import time
from collections import Counter
from statistics import fmean

from fifthwise.strings import StringsError, instrument_of, places_of, string_name, usual_finger
from fifthwise.strings.fingering import finger_line, fingering_faults
from tests.outside.fiddle_tunes import all_tunes

VIOLIN = instrument_of("violin")
HIGHEST = 8  # the fourth finger's highest stop in first position
FINGERS = range(5)
SAMPLE = 24  # differing places that are shown


def found_at(tunes, level):
    """The tunes that a level can play, with their fingers, and what is said about the others."""
    found, left_out = [], Counter()
    for tune in tunes:
        try:
            found.append((tune, finger_line(tune.line, VIOLIN, level)))
        except StringsError as fault:
            left_out[type(fault).__name__] += 1
    return found, left_out


def by_letters(line):
    """The finger for each note by its letter, on the highest string that has it."""
    return [finger_on(note.pitches[0], max(strings_of(note.pitches[0]))) for note in line.notes]


def nearest(line):
    """The finger for each note by its letter, on the string nearest to that of the note before."""
    fingers, before = [], 0
    for note in line.notes:
        before = min(strings_of(note.pitches[0]), key=lambda string: (abs(string - before), string))
        fingers.append(finger_on(note.pitches[0], before))
    return fingers


def strings_of(pitch):
    return [place.string for place in places_of(VIOLIN, pitch) if place.stop <= HIGHEST]


def finger_on(pitch, string):
    own = VIOLIN.strings[string]
    return 0 if own.midi == pitch.midi else min(4, max(1, usual_finger(own, pitch)))


def show_plays(tunes):
    """How many tunes each level plays, what the validator says, and which fingers are used."""
    sound = True
    for level in ("first", "third", "all"):
        start = time.process_time()
        found, left_out = found_at(tunes, level)
        took = time.process_time() - start
        faults = [fault for _, each in found for fault in fingering_faults(each, VIOLIN, level)]
        stops = [stop for _, each in found for note in each.notes for stop in note.stops]
        choice = Counter(
            stop.finger for stop in stops if stop.finger == 0 or (stop.finger, stop.stop) == (4, 7)
        )
        shifts = sum(len(each.shifts) for _, each in found)
        print(f"{level}: {len(found)} tunes, {len(stops)} notes, {took:.1f} s; faults {len(faults)}")
        print(f"  left out: {dict(left_out)}; shifts {shifts}; open {choice[0]}, 4 for open {choice[4]}")
        sound = sound and not faults
    return sound


def show_agreement(name, pairs):
    """How often fingers are those that are printed, by digit, and what stands in their place."""
    table = Counter(pairs)
    same = sum(count for (printed, ours), count in table.items() if printed == ours)
    print(f"{name}: {same} of {len(pairs)}, {same / len(pairs):.1%}")
    for printed in FINGERS:
        row = [table[printed, ours] for ours in FINGERS]
        print(f"  printed {printed}: {row}  {row[printed] / max(1, sum(row)):.0%}")
    shares = [table[p, p] / total for p in FINGERS if (total := sum(table[p, o] for o in FINGERS))]
    print(f"  mean of the digits: {fmean(shares):.1%}")


def show_digits(tunes):
    """The search and two simple rules, where all of a tune lies in first position."""
    found, _ = found_at([tune for tune in tunes if any(digit is not None for digit in tune.digits)], "first")
    ways = {
        "search": lambda tune, fingering: [note.stops[0].finger for note in fingering.notes],
        "by letters": lambda tune, fingering: by_letters(tune.line),
        "nearest": lambda tune, fingering: nearest(tune.line),
    }
    print(f"\nprinted digits in {len(found)} tunes that lie in first position; rows: what is found, 0 to 4")
    for name, way in ways.items():
        given = [(tune.digits, way(tune, fingering)) for tune, fingering in found]
        pairs = [
            pair for digits, ours in given for pair in zip(digits, ours, strict=True) if pair[0] is not None
        ]
        show_agreement(name, pairs)
    wide, _ = found_at([tune for tune, _ in found], "third")
    pairs = [
        (digit, note.stops[0].finger)
        for tune, fingering in wide
        for digit, note in zip(tune.digits, fingering.notes, strict=True)
        if digit is not None
    ]
    show_agreement("search, positions up to third", pairs)
    return found


def show_differing(found):
    """A sample of the places that differ, with the notes about them."""
    places = [
        (tune, fingering, at)
        for tune, fingering in found
        for at, digit in enumerate(tune.digits)
        if digit not in (None, fingering.notes[at].stops[0].finger)
    ]
    print(f"\n{len(places)} differ:")
    for kind, count in Counter(kind_of(*place) for place in places).most_common():
        print(f"  {count} {kind}")
    print(f"every {len(places) // SAMPLE}th, our fingers, printed digits in brackets")
    for tune, fingering, at in places[:: max(1, len(places) // SAMPLE)]:
        shown = [one(tune, fingering, near) for near in range(max(0, at - 3), min(len(tune.digits), at + 4))]
        print(f"  {tune.title[:34]:34} note {at + 1:3}: {' '.join(shown)}")


def kind_of(tune, fingering, at):
    """What a differing place is, by what is printed and what lies beside it."""
    digit, ours = tune.digits[at], fingering.notes[at].stops[0].finger
    pitch = tune.line.notes[at].pitches
    beside = [note.pitches for note in tune.line.notes[max(0, at - 1) : at + 2 : 2]]
    if (digit, ours) == (4, 0):
        again = "beside the same note again" if pitch in beside else "alone"
        return f"printed 4, ours open, {again}"
    if (digit, ours) == (0, 4):
        return "printed open, ours 4"
    return "printed another finger: another position, or a digit over another note"


def one(tune, fingering, at):
    """A note with its finger and the digit that is printed."""
    note, digit = fingering.notes[at], tune.digits[at]
    stop = note.stops[0]
    slur = "~" if note.note.slur else ""
    printed = "" if digit is None else f"[{digit}]"
    return f"{note.note.pitches[0]}{slur}:{string_name(VIOLIN, stop.string)}{stop.finger}{printed}"


def main():
    tunes = all_tunes()
    digits = sum(digit is not None for tune in tunes for digit in tune.digits)
    print(f"{len(tunes)} tunes, {sum(len(tune.line.notes) for tune in tunes)} notes, {digits} digits")
    sound = show_plays(tunes)
    show_differing(show_digits(tunes))
    return sound


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
