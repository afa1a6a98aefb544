"""Train the weights of the key finder: which tonic the chords of a song speak for.

Each song is a choice among twelve tonics; the likelihood of the annotated one is made as great as can be,
each weight held back by its square (``HELD_BACK``). Every song is learned as it is annotated, with all chords
equally long, and with each section once, since people's sheets leave lengths and repeats out. Its sections
are learned by themselves too, so that little evidence is known as little (``EXCERPTS``).
"""

from fractions import Fraction

import numpy as np
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

from fifthwise.theory import read_note
from fifthwise.theory.key_evidence import LastingChord, evidence
from tests.harte import read_harte
from tests.outside.pop_song_text import bar_metre, phrases

HELD_BACK = 0.3
EXCERPTS = 3.0  # what all excerpts of a song count together, beside 1 for each way of writing it whole
TONICS = 12


def sections_of(song):
    """The chords of each section, and the pitch class of its annotated tonic."""
    sections, tonics, names = [], [], []
    for phrase in phrases(song):
        tonic = read_note(phrase.tonic).pitch_class
        if not sections or phrase.section is not None or tonic != tonics[-1]:
            sections.append([])
            tonics.append(tonic)
            names.append(phrase.section)
        for bar in phrase.bars:
            sections[-1] += _bar_chords(bar)
    heard = [place for place, section in enumerate(sections) if section]
    return [sections[at] for at in heard], [tonics[at] for at in heard], [names[at] for at in heard]


def _bar_chords(bar):
    labels = [label for label in bar if not bar_metre(label)]
    found, share = [], Fraction(1, len(labels))
    for label in labels:
        chord = found[-1].chord if label == "." and found else read_harte("N" if label == "." else label)
        if chord is not None:
            found.append(LastingChord(chord, share))
    return found


def as_sheets(song):
    """A song in the three ways in which it is learned."""
    sections, _, names = sections_of(song)
    first = {name: place for place, name in reversed(list(enumerate(names))) if name}
    once = [section for at, section in enumerate(sections) if first.get(names[at], at) == at]
    return sections, equally_long(sections), equally_long(once)


def equally_long(sections):
    """Chords that nobody measured."""
    return [
        [LastingChord(each.chord) for place, each in enumerate(section)
         if not place or each.chord != section[place - 1].chord]
        for section in sections
    ]  # fmt: skip


def learned(song):
    """What is learned of a song: chords, the right tonic, and how much it counts."""
    sections, tonics, _ = sections_of(song)
    for sheet in as_sheets(song):
        yield sheet, tonics[0], 1.0
    alone = zip(sections, tonics, strict=True)
    excerpts = {(tonic, tuple(e.chord for e in section)): section for section, tonic in alone}
    for (tonic, _), section in excerpts.items():
        yield equally_long([section]), tonic, EXCERPTS / len(excerpts)


def train(songs, held_back=HELD_BACK):
    """The weights for some songs: twelve a row, by semitones above the tonic."""
    sheets, tonics, counts = zip(*(each for song in songs for each in learned(song)), strict=True)
    rows = {row: place for place, row in enumerate(sorted({e.row for s in sheets for e in evidence(s)}))}
    table = _table(sheets, rows)
    right = np.arange(len(sheets)) * TONICS + np.array(tonics)
    counts = np.array(counts)

    def loss(weights):
        scores = (table @ weights).reshape(-1, TONICS)
        scores -= scores.max(axis=1, keepdims=True)
        chances = np.exp(scores)
        chances = (chances / chances.sum(axis=1, keepdims=True)).ravel()
        value = -counts @ np.log(chances[right] + 1e-300) + held_back / 2 * (weights @ weights)
        chances[right] -= 1
        return value, table.T @ (chances * np.repeat(counts, TONICS)) + held_back * weights

    found = minimize(loss, np.zeros(len(rows) * TONICS), jac=True, method="L-BFGS-B").x
    return {row: tuple(found[at * TONICS : (at + 1) * TONICS]) for row, at in rows.items()}


def _table(sheets, rows):
    """One row for each sheet and tonic, one column for each weight."""
    values, across, down = [], [], []
    for place, sheet in enumerate(sheets):
        for each in evidence(sheet):
            for tonic in range(TONICS):
                values.append(each.amount)
                across.append(rows[each.row] * TONICS + (each.root - tonic) % TONICS)
                down.append(place * TONICS + tonic)
    return csr_matrix((values, (down, across)), shape=(len(sheets) * TONICS, len(rows) * TONICS))
