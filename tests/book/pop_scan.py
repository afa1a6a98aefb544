"""A search for progressions in 370 songs that goes through the source's own labels, one by one.

Burgoyne, Wild and Fujinaga, "An Expert Ground Truth Set for Audio Chord Recognition and Music Analysis",
ISMIR 2011: the songs. Raffel et al., "mir_eval", ISMIR 2014: which third a label has. Harte et al., ISMIR
2005: what a label's changes and bass are counted from. It knows nothing of the book's index.
"""

import functools
import itertools
import random

import mir_eval

from tests.harte import LABEL, NO_CHORD, degree_place, harte_places, number_text, pop_songs
from tests.outside.pop_song_text import sounding

__all__ = ["different_progressions", "scan"]

SIGNS = {"major": "", "minor": "-", "diminished": "o"}
TRIADS = {
    frozenset({0, 4, 1}): "major",
    frozenset({0, -3, 1}): "minor",
    frozenset({0, -3, -6}): "diminished",
    frozenset({0, 4, 8}): "augmented",
}


def place_of(note):
    """A letter's place on the line of fifths, by hand."""
    return "FCGDAEB".index(note[0]) - 1 + 7 * (note.count("#") - note.count("b"))


def third_of(label):
    """Major, minor, diminished or none, as mir_eval has it; its bitmap would count the bass in."""
    _, bitmap, _ = mir_eval.chord.encode(label.partition("/")[0], reduce_extended_chords=True)
    if bitmap[4]:
        return "major"
    if not bitmap[3]:
        return "none"
    return "diminished" if bitmap[6] and not bitmap[7] else "minor"


@functools.cache
def heard(label, tonic):
    """A label as (root, third, notes, bass), counted from the tonic; ``None`` where there is no chord."""
    if label in NO_CHORD:
        return None
    note, shorthand, changes, bass = LABEL.match(label).groups()
    root = place_of(note) - tonic
    low = root + degree_place(bass) if bass else None
    places = harte_places("maj" if shorthand is None else shorthand, changes)
    return root, third_of(label), places, None if low == root else low


@functools.cache
def runs(number):
    """A song's chords, held ones once, parted where there is no chord and where the tonic changes."""
    found, last = [[]], None
    for chord in sounding(pop_songs()[number]):
        said = heard(chord.label, chord.tonic.fifths)
        if said is None or chord.tonic != last:
            found.append([])
        if said is not None and (not found[-1] or found[-1][-1][0] != said):
            found[-1].append((said, (chord.label, chord.tonic)))
        last = chord.tonic
    return [run for run in found if run]


@functools.cache
def settled(number):
    """The runs, each chord without a third given that of the next on its root, or of the last."""
    found = []
    for run in runs(number):
        chords = [said for said, _ in run]
        for at in [*range(len(chords) - 2, -1, -1), *range(len(chords))]:
            root, third, *rest = chords[at]
            near = chords[at + 1 : at + 2] if third == "none" else []
            if third == "none" and not (near and near[0][0] == root and near[0][1] != "none"):
                near = chords[max(at - 1, 0) : at] if at in range(1, len(chords)) else []
            if near and near[0][0] == root:
                chords[at] = (root, near[0][1], *rest)
        found.append(chords)
    return found


def fits(asked, chord):
    """Whether a chord is what one chord of a progression asks for."""
    root, third, places, bass = asked
    if root != chord[0] or bass not in (None, chord[3]):
        return False
    if third == "augmented":
        return {4, 8} <= chord[2] and not {1, -6} & chord[2]
    if third is not None:
        return chord[1] == third or (chord[1] == "none" and third in ("major", "minor"))
    return places == chord[2]


def stands_in(asked, chords):
    """Whether the chords asked for, each taking one chord or several, come in a row somewhere."""
    ends = set()  # how many of those asked for may have been taken up to here
    for chord in chords:
        ends = {n for n, one in enumerate(asked, 1) if (n == 1 or ends & {n, n - 1}) and fits(one, chord)}
        if len(asked) in ends:
            return True
    return False


def as_asked(said, label, tonic, *, plainly):
    """A chord of a song as a player asks for it: the text, and what ``fits`` makes of it."""
    root, third, places, bass = said
    degree = number_text(f"{label.partition(':')[0].partition('/')[0]}:maj", tonic)
    if plainly and third in SIGNS:
        return degree + SIGNS[third], (root, third, None, None)
    triad = TRIADS.get(places)
    return number_text(label, tonic), (root, triad, None if triad else places, bass)


def progressions():
    """Two to four chords in a row from a song, more or less exactly; and made-up rows."""
    chance = random.Random(6415)
    degrees = ("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7")
    while True:
        length = chance.randint(2, 4)
        if chance.random() < 0.2:
            picked = [
                (degree, *chance.choice(list(SIGNS.items()))) for degree in chance.sample(degrees, length)
            ]
            yield [(d + sign, (degree_place(d), third, None, None)) for d, third, sign in picked]
            continue
        run = chance.choice(runs(chance.randrange(len(pop_songs()))))
        at = chance.randrange(len(run))
        plainly = chance.random() < 0.6
        yield [
            as_asked(said, *written, plainly=plainly or chance.random() < 0.3)
            for said, written in run[at : at + length]
        ]


def different_progressions(count):
    """So many progressions, each as its text and as what ``fits`` takes; equal chords in a row are one."""
    asked = {}
    for chords in progressions():
        once = [chord for chord, _ in itertools.groupby(chords)]
        if len(once) > 1:
            asked.setdefault(" ".join(text for text, _ in once), [wanted for _, wanted in once])
        if len(asked) == count:
            return asked


def scan(asked, songs):
    """The numbers of those songs that play a progression."""
    return {number for number in songs if any(stands_in(asked, run) for run in settled(number))}
