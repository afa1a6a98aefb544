"""Chords that a file spells out as texts or markers."""

import re
from collections.abc import Sequence
from fractions import Fraction

from fifthwise.exchange.midi.raw import RawSong, RawText
from fifthwise.theory import ChordFault, LetterChord, NoteFault, read_letter_chord

__all__ = ["TimedChord", "said_chords"]

TimedChord = tuple[Fraction, LetterChord | None]
NO_CHORD = re.compile(r"n\.? ?c\.?\Z|no chord\Z", re.IGNORECASE)
BARE = re.compile(r"[A-G]\Z")
LONGEST = 24  # letters of a chord
HALF = 2


def said_chords(song: RawSong) -> tuple[list[TimedChord], list[RawText], list[RawText]]:
    """The chords that texts spell, else those that markers spell; the other texts; the other markers."""
    chords, others = _parted(song.texts)
    if any(chord is not None for _, chord in chords):
        return _timed(chords, song.ppq), others, song.markers
    chords, sections = _parted(song.markers)
    if _are_chords(chords, sections):
        return _timed(chords, song.ppq), song.texts, sections
    return [], song.texts, song.markers


def _parted(
    texts: Sequence[RawText],
) -> tuple[list[tuple[RawText, LetterChord | None]], list[RawText]]:
    chords, others = [], []
    for text in texts:
        try:
            chords.append((text, _chord(text.text)))
        except (ChordFault, NoteFault):
            others.append(text)
    return chords, others


def _chord(text: str) -> LetterChord | None:
    if NO_CHORD.match(text):
        return None
    if len(text) > LONGEST:
        raise ChordFault("this is no chord", "chord", "Write it as in 'Am7'")
    return read_letter_chord(text)


def _are_chords(chords: Sequence[tuple[RawText, LetterChord | None]], others: Sequence[RawText]) -> bool:
    """Whether markers spell chords: most do, and not all are letters such as name sections."""
    spelled = [text.text for text, chord in chords if chord is not None]
    return len(chords) * HALF > len(chords) + len(others) and not all(BARE.match(text) for text in spelled)


def _timed(chords: Sequence[tuple[RawText, LetterChord | None]], ppq: int) -> list[TimedChord]:
    return [(Fraction(text.at, ppq), chord) for text, chord in chords]
