"""Lines that look like chords and were not understood: which one, what in it, and how to write it."""

import re
from typing import NamedTuple

from fifthwise.exchange.letter_cells import SectionDraft
from fifthwise.exchange.letter_german import english_name
from fifthwise.exchange.letter_tokens import is_chord
from fifthwise.exchange.placed import Piece, Source

__all__ = ["tell_no_bars", "without_unread"]

WORD = re.compile(r"[^\s|]+")
AROUND = "*~^'’,;.()[]:"  # signs that people put round a chord
FEWEST = 2  # chords, and more than half of the line
LONGEST = 600  # characters
NO_BARS = "there are no bars of chords"
NO_BARS_FIX = "Write bars, as in '| G | C D | Em7 |'"


class Unread(NamedTuple):
    """A line that looks like chords: how many it has, and the first word that is none."""

    chords: int
    at: Piece
    shown: str  # its chords as bars


def without_unread(sections: list[SectionDraft], source: Source) -> list[SectionDraft]:
    """The sections without those that have no bars because a line was not understood, which is faulted."""
    return [section for section in sections if section.rows or not _is_told(section, source)]


def _is_told(section: SectionDraft, source: Source) -> bool:
    found = (_unread(source.kept[words.line - 1], words.line) for words in section.words)
    unread = next((each for each in found if each is not None), None)
    if unread is not None:
        _tell(unread, f"'{unread.at.text}' is no chord, so this line is not read as bars", source)
    return unread is not None


def tell_no_bars(source: Source) -> None:
    """Say that a sheet has no bars: at the line that looks most like chords, or else at the end."""
    found = [_unread(line, number) for number, line in enumerate(source.kept, start=1)]
    most = max((each for each in found if each is not None), key=lambda each: each.chords, default=None)
    if most is None:
        source.fault(Piece("", len(source.lines), 1, 1), NO_BARS, NO_BARS_FIX)
    else:
        what = f"{NO_BARS}; this line looks most like them, but '{most.at.text}' is no chord"
        _tell(most, what, source)


def _unread(text: str, line: int) -> Unread | None:
    """A line most of which is chords, with a word that is none."""
    words = list(WORD.finditer(text)) if len(text) <= LONGEST else []
    names = [word[0].strip(AROUND) for word in words]
    chords = [english_name(name) or name for name in names if is_chord(name) or english_name(name)]
    strange = next((word for word, name in zip(words, names, strict=True) if not is_chord(name)), None)
    if strange is None or len(chords) < FEWEST or len(chords) * 2 <= len(words):
        return None
    at = Piece(strange[0], line, strange.start() + 1, len(strange[0]))
    return Unread(len(chords), at, f"| {' | '.join(chords)} |")


def _tell(unread: Unread, what: str, source: Source) -> None:
    meant = english_name(unread.at.text.strip(AROUND))
    if meant is not None:
        source.fault(unread.at, what, f"Did you mean '{meant}'?", (meant,))
    else:
        source.fault(unread.at, what, f"Write the chords alone, as in '{unread.shown}'")
