"""A chord of the timeline as it stands over a word."""

from fifthwise.chart import Entry
from fifthwise.page.layout_figure import letter_figure, number_figure
from fifthwise.page.lyrics_model import LyricChord
from fifthwise.theory import Numbering, player_reading, to_letters

__all__ = ["lyric_chord"]

NO_CHORD = LyricChord("NC", "", "", "", "NC")


def lyric_chord(entry: Entry, numbering: Numbering) -> LyricChord | None:
    """Name an entry; a rest has no name."""
    if entry.chord is None:
        return NO_CHORD if entry.kind == "nc" else None
    key = entry.key
    number = number_figure(entry.chord, lowers=numbering.lowers(key))
    letters = letter_figure(player_reading(to_letters(entry.chord, numbering.one(key)), key))
    bass = f"/{number.bass}" if number.bass else ""
    return LyricChord(number.sign + number.root, number.after, number.raised, bass, letters.text)
