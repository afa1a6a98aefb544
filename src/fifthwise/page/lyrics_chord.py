"""A chord of the timeline as it stands over a word: the number taken apart, and the letters."""

import re

from fifthwise.chart import Entry
from fifthwise.page.lyrics_model import LyricChord
from fifthwise.page.text_signs import printed
from fifthwise.theory import Numbering, player_reading, to_letters, write_letters, write_number

__all__ = ["lyric_chord"]

# root, triad, what is raised, bass
NUMBER = re.compile(r"((?:bb|##|b|#)?\d)([-oø+]?)([^/]*)(/.*)?\Z")
NO_CHORD = LyricChord("NC", "", "", "", "NC")
TRIADS = {"-": "–", "o": "°"}


def lyric_chord(entry: Entry, numbering: Numbering) -> LyricChord | None:
    """Name an entry; a rest has no name."""
    if entry.chord is None:
        return NO_CHORD if entry.kind == "nc" else None
    key = entry.key
    scale = numbering.scale(key) if numbering.plain == "diatonic" else ()
    text = write_number(entry.chord, scale=scale, lowers=numbering.lowers(key))
    letters = write_letters(player_reading(to_letters(entry.chord, numbering.one(key)), key))
    return _taken_apart(text, printed(letters).replace("maj", "△"))


def _taken_apart(number: str, letters: str) -> LyricChord:
    match = NUMBER.match(number)
    if not match:
        return LyricChord(printed(number), "", "", "", letters)
    root, triad, raised, bass = match.groups()
    raised = printed(raised).replace("maj", "△")
    return LyricChord(printed(root), TRIADS.get(triad, triad), raised, printed(bass or ""), letters)
