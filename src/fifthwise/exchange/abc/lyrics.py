r"""``w:``: syllables under the notes of the line before.

References
----------
The abc music standard 2.1, 5 "Lyrics"; from memory.
"""

import re
from collections.abc import Sequence

from fifthwise.exchange.abc.raw import RawNote
from fifthwise.exchange.abc.texts import words_of

__all__ = ["SungNote", "sing"]

SungNote = tuple[int, RawNote]  # the bar it stands in, and the note
PIECE = re.compile(r"\\[-\\]|[^\s\-_*|]|[-_*|]|\s+")
HYPHEN = "\ue000"  # stands for one that parts no syllables


def sing(text: str, notes: Sequence[SungNote]) -> None:
    """Give notes their syllables."""
    singer = _Singer(notes)
    for piece in PIECE.findall(text):
        singer.read(piece)
    singer.syllable("")


class _Singer:
    """Lays syllables under notes, one after the other."""

    def __init__(self, notes: Sequence[SungNote]) -> None:
        self.notes, self.at = notes, 0
        self.text = ""

    def read(self, piece: str) -> None:
        """One sign, or blanks."""
        if piece.isspace():
            self.syllable("")
        elif piece == "-":
            self._part()
        elif piece in "_*":
            self.syllable("")
            self.at += 1
        elif piece == "|":
            self.syllable("")
            self._next_bar()
        else:
            self.text += {"~": " ", "\\-": HYPHEN}.get(piece, piece)

    def _part(self) -> None:
        """A word goes on at the next note; a hyphen behind a blank or another one skips a note."""
        if self.text:
            self.syllable("-")
        else:
            self.at += 1

    def syllable(self, tail: str) -> None:
        """Lay down what has been read."""
        if not self.text:
            return
        if self.at < len(self.notes):
            note = self.notes[self.at][1]
            said = words_of(self.text.replace(HYPHEN, "-")).strip()
            note.syllable = said + tail if said else ""
        self.at += 1
        self.text = ""

    def _next_bar(self) -> None:
        """Go on at the first note of the next bar."""
        if 0 < self.at <= len(self.notes):
            bar = self.notes[self.at - 1][0]
            while self.at < len(self.notes) and self.notes[self.at][0] == bar:
                self.at += 1
