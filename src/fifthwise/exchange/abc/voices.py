"""The voices of a tune: each line goes to the voice that it is of."""

import re

from fifthwise.exchange.abc.bars import Room
from fifthwise.exchange.abc.book import BODY
from fifthwise.exchange.abc.head import TuneHead
from fifthwise.exchange.abc.keys import read_moved
from fifthwise.exchange.abc.limits import LONGEST_LINE, MOST_VOICES
from fifthwise.exchange.abc.lyrics import sing
from fifthwise.exchange.abc.raw import RawBar
from fifthwise.exchange.abc.signs import user_sign
from fifthwise.exchange.abc.texts import line_of
from fifthwise.exchange.abc.voice import VoiceReader
from fifthwise.exchange.errors import TooLarge
from fifthwise.exchange.left_out import LeftOut

__all__ = ["Voices"]

SWITCH = re.compile(r"\[V:([^\]\[]{0,200})\]")
NAME = re.compile(r'\b(?:name|nm)\s*=\s*(?:"([^"]*)"|(\S+))')
LONGEST_ID = 40


class Voices:
    """Reads a tune's lines.

    Attributes
    ----------
    names : dict
        What each voice is called, by what stands behind ``V:``.
    """

    def __init__(self, head: TuneHead, room: Room, where: str, left: LeftOut) -> None:
        self.head, self.room, self.where, self.left = head, room, where, left
        self.names: dict[str, str] = {}
        self.said: dict[str, str] = {}  # clefs and transpositions
        self.readers: dict[str, VoiceReader] = {}
        self.now: VoiceReader | None = None
        self.verse = 0
        self.words = ""  # of a verse that may go on in the next line
        for text in head.voices:
            self._known(text)

    def line(self, text: str) -> None:
        """Read a line: a field, or music."""
        if text.startswith("+:"):
            self.words += " " + text[2 : LONGEST_LINE - len(self.words)]
            return
        if len(text) > LONGEST_LINE:
            what = f"a line of music has {len(text)} letters; {LONGEST_LINE} are read"
            raise TooLarge(what, self.where, "Part it into lines")
        self._sing()
        field = BODY.match(text)
        if not field:
            self._music(text)
        elif text[0] == "w":
            self.words = text[2:]
        elif text[0] == "V":
            self._switch(text[2:])
        elif text[0] == "U":
            sign = user_sign(text[2:])
            if sign:
                self.head.user[sign[0]] = sign[1]
        else:
            self._reader().fields.read(text[0], text[2:])

    def finish(self) -> list[tuple[str, str, list[RawBar]]]:
        """Each voice: its id, its name and its bars."""
        self._sing()
        found = []
        for key, reader in self.readers.items():
            reader.finish()
            found.append((key, self.names.get(key) or key, reader.maker.bars))
        return found

    def _music(self, text: str) -> None:
        self.verse = 0
        if "[V:" not in text:
            self._reader().line(text)
            return
        for at, piece in enumerate(SWITCH.split(text)):
            if at % 2:
                self._switch(piece)
            elif piece.strip():
                self._reader().line(piece)

    def _sing(self) -> None:
        """Lay down the first verse; of the others there is told."""
        text, self.words = self.words, ""
        if not text or self.now is None:
            return
        self.verse += 1
        if self.verse == 1:
            sing(text, self.now.sung)
        elif text.strip():
            self.now.lose(f"verse {self.verse} is left out")

    def _reader(self) -> VoiceReader:
        """The voice that is read; without ``V:`` it is the first."""
        if self.now is None:
            self._open(next(iter(self.names), "1"))
        assert self.now is not None
        return self.now

    def _switch(self, text: str) -> None:
        key = self._known(text)
        if key:
            self._open(key)
            self._reader().fields.move(self.said.get(key, ""))

    def _known(self, text: str) -> str:
        """Note what is said of a voice; what stands first is its id."""
        key, _, said = text.strip().partition(" ")
        key = line_of(key)[:LONGEST_ID]
        if key:
            named = NAME.search(said)
            name = line_of((named[1] or named[2] or "") if named else "")[:LONGEST_ID]
            self.names[key] = name or self.names.get(key, "")
            if read_moved(said):
                self.said[key] = said
        return key

    def _open(self, key: str) -> None:
        if key not in self.readers:
            if len(self.readers) >= MOST_VOICES:
                what = f"the tune has more than {MOST_VOICES} voices"
                raise TooLarge(what, self.where, "Bring the tune's voice alone")
            self.readers[key] = VoiceReader(key, self.head.holds, self.room, self.left)
            self.readers[key].user = self.head.user
            self.readers[key].fields.move(self.said.get(key, ""))
            self.readers[key].maker.road.tempo_bpm = self.head.tempo.quarters_bpm
        self.now = self.readers[key]
