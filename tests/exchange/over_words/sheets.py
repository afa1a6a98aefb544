"""The pop songs of ``tests/data`` written out as people type them: chords over invented words."""

import random
from itertools import groupby

from fifthwise.theory import read_letter_chord
from tests.harte import NO_CHORD, bar_metre
from tests.outside.pop_song_text import letters, phrases

WORDS = (
    *("lorem", "ipsum", "dolor", "sit", "amet", "consectetur", "adipiscing", "elit", "sed", "do", "eiusmod"),
    *("tempor", "incididunt", "ut", "labore", "et", "a", "am", "dolore", "magna", "aliqua", "enim", "be"),
)
MOST = 6  # chords on a line


def song_sections(song):
    """Each section's name and its chords in letters, those that are struck again left out."""
    found = []
    for phrase in phrases(song):
        if phrase.section is not None or not found:
            found.append((phrase.section or "start", []))
        for bar in phrase.bars:
            for label in bar:
                if label != "." and not bar_metre(label):
                    found[-1][1].append("N.C." if label in NO_CHORD else letters(label))
    settled = [(name, [chord for chord, _ in groupby(chords)]) for name, chords in found]
    return [(name, chords) for name, chords in settled if any(chord != "N.C." for chord in chords)]


def over_words(song, seed, *, inline=False):
    """The song as a sheet, each line of chords over words or in them, and its sections.

    Every section has a number of its own, so that none is taken for another.
    """
    chance = random.Random(seed)
    sections = [(f"{name} {place}", chords) for place, (name, chords) in enumerate(song_sections(song), 1)]
    text = [f"Invented {seed}", "by nobody", ""]
    for name, chords in sections:
        text += ["", chance.choice(("[{}]", "{}:", "# {}")).format(_part(name))]
        for at in range(0, len(chords), MOST):
            text += _line(chords[at : at + MOST], chance, inline=inline)
    return "\n".join(text), [(_part(name), chords) for name, chords in sections]


def _part(name):
    """A name that says it is a part of a song."""
    return "Part " + name.rsplit(" ", 1)[1]


def _line(chords, chance, *, inline):
    above = words = ""
    typed = ""
    for chord in chords:
        sung = " ".join(chance.choice(WORDS) for _ in range(chance.randint(1, 3)))
        width = max(len(sung), len(chord)) + chance.randint(1, 4)
        above, words = above + chord.ljust(width), words + sung.ljust(width)
        typed += f"[{chord}]{sung} "
    if inline:
        return [typed]
    return [above.rstrip(), words.rstrip()] if chance.random() < 0.8 else [above.rstrip(), ""]


def chord_names(bar):
    """What a chart's bar plays, as letters read and written; for comparing."""
    return None if bar == "N.C." else read_letter_chord(bar)
