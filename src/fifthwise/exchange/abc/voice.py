"""One voice of a tune, read sign by sign.

References
----------
The abc music standard 2.1, 4 "The tune body"; from memory.
"""

import re
from collections.abc import Callable
from fractions import Fraction

from fifthwise.chart import Mark
from fifthwise.exchange.abc.bar_lines import BarLine, read_bar_line, read_endings
from fifthwise.exchange.abc.bars import BarMaker, Room
from fifthwise.exchange.abc.fields import Holds, VoiceFields
from fifthwise.exchange.abc.limits import LONGEST_BAR
from fifthwise.exchange.abc.lyrics import SungNote
from fifthwise.exchange.abc.metres import is_compound
from fifthwise.exchange.abc.raw import RawNote
from fifthwise.exchange.abc.rhythm import broken_parts, note_length, place_after, times, tuplet_of
from fifthwise.exchange.abc.signs import LETTER_SIGNS, MARKS, Quote, lost, read_quote, road_sign
from fifthwise.exchange.abc.tokens import CHORD_NOTE, GRACE_NOTE, TOKEN
from fifthwise.exchange.errors import TooLarge
from fifthwise.exchange.lead_sheet import LeadChord
from fifthwise.exchange.left_out import LeftOut
from fifthwise.theory import SpelledPitch

__all__ = ["VoiceReader"]

# Notes together as the oldest files write them, ``+E3A3+``; letters alone may be a sign, as ``+ff+``.
OLD_CHORD = re.compile(r"(?=.*[A-G0-9])(?:[A-Ga-g]\d?/?\d?){2,4}\Z")
MOST_TOGETHER = 2  # notes of a tune that are kept as a double stop
SILENT_SIGNS = "\\$*;`"  # the end of a line that goes on, where a line may end, old rests between words
Pitches = tuple[SpelledPitch, ...]


class VoiceReader:
    """Reads a voice's lines into bars."""

    def __init__(self, name: str, holds: Holds, room: Room, left: LeftOut) -> None:
        self.name, self.left = name, left
        self.maker = BarMaker(holds.key.key, holds.metre, room)
        self.fields = VoiceFields(holds, self.maker, left)
        self.user: dict[str, str] = {}
        self.at = Fraction(0)
        self.last: RawNote | None = None
        self.tied: Pitches = ()
        self.slurs = 0
        self.broken: Fraction | None = None
        self.tuplet, self.tuplet_left = Fraction(1), 0
        self.quotes: list[Quote] = []
        self.marks: list[Mark] = []
        self.grace: Pitches = ()
        self.sung: list[SungNote] = []
        self.goes_on = self.overlay = False
        self.overlay_from = 0
        self.skipped_bars = 0
        kinds: tuple[Callable[[re.Match[str]], None], ...] = (
            self._note, self._blank, self._bar, self._tie, self._broken, self._rest, self._bars, self._tuplet,
            self._open, self._close, self._quote, self._ending, self._inline, self._chord, self._grace,
            self._sign, self._plus, self._blank, self._overlay, self._letter, self._other,
        )  # fmt: skip
        self.kinds = dict(zip(KINDS, kinds, strict=True))

    def line(self, text: str) -> None:
        """Read a line of music."""
        if not self.goes_on:
            self.sung = []
        self.goes_on = text.endswith("\\")
        kinds = self.kinds
        for token in TOKEN.finditer(text):
            kind = token.lastgroup
            if self.overlay and kind not in ("bar", "overlay"):
                continue
            kinds[kind or "other"](token)
        if self.at > LONGEST_BAR:
            what = f"there is no bar line in {LONGEST_BAR} quarters"
            raise TooLarge(what, self.maker.room.where, "Set bar lines between the notes")

    def finish(self) -> None:
        """The voice has ended."""
        if self.quotes:
            self._say_over(self.at)
        bars = self.maker.finish()
        if self.last is not None:
            self.last.slurred = False
        for bar in bars:
            bar.notes = _sounding(bar.notes)

    def lose(self, what: str) -> None:
        """Note what is left out of the bar that is read."""
        self.left.add(what, str(len(self.maker.bars) + 1))

    def _add(self, pitches: Pitches, length: Fraction | None) -> None:
        if length is None:
            self.lose("a length that cannot be read is taken for one unit")
            length = self.fields.lengths.unit
        if self.tuplet_left:
            length = times(length, self.tuplet)
            self.tuplet_left -= 1
        if self.broken is not None:
            length = times(length, self.broken)
            self.broken = None
        note = RawNote(self.at, length, pitches, slurred=self.slurs > 0)
        if self.quotes or self.marks:
            self._say_over(self.at)
        bar = self.maker.bar
        if pitches:
            self._sound(note)
        bar.notes.append(note)
        self.tied = ()
        self.last = note
        self.at = bar.length = place_after(self.at, length)

    def _sound(self, note: RawNote) -> None:
        """What a note has that a rest has not."""
        self.sung.append((len(self.maker.bars), note))
        if self.grace:
            note.grace, self.grace = self.grace, ()
        if self.tied:
            sounding = {pitch.midi for pitch in self.tied}
            again = [pitch.midi in sounding for pitch in note.pitches]
            note.goes_on = all(again)
            if not any(again) and self.last is not None:
                self.last.slurred = True  # as older files write a slur of two notes
            elif not note.goes_on:
                self.lose("a tie to some notes of several is left out")

    def _note(self, token: re.Match[str]) -> None:
        pitch, length = token.group("pitch", "length")
        fields = self.fields
        self._add(fields.pitches.alone(pitch, self.tied), fields.lengths[length])

    def _chord(self, token: re.Match[str]) -> None:
        self._together(token["inner"], token["longer"])

    def _together(self, inner: str, longer_text: str) -> None:
        """Several notes together; they last as long as the first."""
        found: list[SpelledPitch] = []
        ties: list[SpelledPitch] = []
        first = ""
        for each in CHORD_NOTE.finditer(inner):
            if each["quote"]:
                self.quotes.append(read_quote(each["quote"]))
            elif each["pitch"]:
                first = first if found else each["length"]
                found.append(self.fields.pitches.pitch(each["pitch"], self.tied))
                if each["tie"]:
                    ties.append(found[-1])
        if not found:
            self.lose(f"'[{inner[:20]}]' is no music and is left out")
            return
        length, longer = self.fields.lengths[first], note_length(longer_text, Fraction(1))
        pitches = tuple(sorted(found, key=_height))
        if len(pitches) > MOST_TOGETHER:
            self.lose("of three notes and more together the highest is kept")
            pitches = pitches[-1:]
        self._add(pitches, length * longer if length is not None and longer is not None else None)
        self.tied = tuple(ties)

    def _rest(self, token: re.Match[str]) -> None:
        self._add((), self.fields.lengths[token[0][1:]])

    def _bars(self, token: re.Match[str]) -> None:
        count = int(token[0][1:] or 1)
        if self.quotes or self.marks:
            self._say_over(self.at)
        self.maker.rests(count)
        self.at = self.maker.bar.length
        self.last, self.tied = None, ()

    def _bar(self, token: re.Match[str]) -> None:
        self._end(read_bar_line(token["bar"]))
        self.fields.pitches.end_bar()

    def _ending(self, token: re.Match[str]) -> None:
        self._end(BarLine(endings=read_endings(token[0])))
        if token[0].endswith('"'):
            self.quotes.append(read_quote("^" + token[0][2:-1]))

    def _end(self, line: BarLine) -> None:
        self.overlay = self.skipped_bars > 0
        if self.overlay:
            self.skipped_bars -= 1
            return
        self.maker.end(line)
        self.at = self.maker.bar.length

    def _tie(self, _: re.Match[str]) -> None:
        if self.last is not None:
            self.tied = self.last.pitches

    def _broken(self, token: re.Match[str]) -> None:
        notes = self.maker.bar.notes
        if self.last is None or not notes or notes[-1] is not self.last:
            self.lose("broken rhythm over a bar line is left out")
            return
        mine, self.broken = broken_parts(token[0])
        self.last.length = times(self.last.length, mine)
        self.at = self.maker.bar.length = place_after(self.last.at, self.last.length)

    def _tuplet(self, token: re.Match[str]) -> None:
        compound = is_compound(self.maker.metre)
        self.tuplet, self.tuplet_left = tuplet_of(token["p"], token["qr"], compound)

    def _open(self, _: re.Match[str]) -> None:
        self.slurs += 1

    def _close(self, _: re.Match[str]) -> None:
        self.slurs = max(0, self.slurs - 1)
        if self.last is not None and not self.slurs:
            self.last.slurred = False

    def _grace(self, token: re.Match[str]) -> None:
        notes = GRACE_NOTE.finditer(token["quick"])
        self.grace = tuple(self.fields.pitches.pitch(note["pitch"]) for note in notes)

    def _quote(self, token: re.Match[str]) -> None:
        self.quotes.append(read_quote(token["quote"]))

    def _say_over(self, at: Fraction) -> None:
        """Lay what has been said over a place: chords with their marks, signs, words."""
        for quote in self.quotes:
            self._say(quote)
        bar = self.maker.bar
        chords = [quote.chord for quote in self.quotes if quote.is_chord]
        if len(chords) > 1:
            self.lose("a second chord over the same note is left out")
        if chords:
            bar.chords.append(LeadChord(at, chords[0], tuple(dict.fromkeys(self.marks))))
        elif self.marks:
            self.lose("holds and other marks over no chord are left out")
        self.quotes, self.marks = [], []

    def _say(self, quote: Quote) -> None:
        if quote.mark:
            self.marks.append(quote.mark)
        elif quote.road:
            self._lead(quote.road)
        elif quote.words:
            self.maker.bar.words.append(quote.words)
        for told in (quote.lost, quote.second):
            if told:
                self.lose(told)

    def _inline(self, token: re.Match[str]) -> None:
        letter, _, text = token["inline"].partition(":")
        self.fields.read(letter, text)

    def _sign(self, token: re.Match[str]) -> None:
        self._decorate(token["sign"])

    def _plus(self, token: re.Match[str]) -> None:
        if OLD_CHORD.match(token["plus"]):
            self._together(token["plus"], "")
        else:
            self._decorate(token["plus"])

    def _letter(self, token: re.Match[str]) -> None:
        letter = token[0]
        name = self.user.get(letter) or LETTER_SIGNS.get(letter, "")
        if name:
            self._decorate(name)
        else:
            self.lose(f"the sign '{letter}' is left out")

    def _decorate(self, name: str) -> None:
        if name in ("nil", "none"):
            return
        road = road_sign(name)
        if road:
            self._lead(road)
        elif name in MARKS:
            self.marks.append(MARKS[name])
        else:
            self.lose(lost(name))

    def _lead(self, way: str) -> None:
        """Note a sign that leads through the song at its bar."""
        road = self.maker.bar.road
        if way == "segno":
            road.segno = True
        elif way == "coda":
            road.coda_signs += 1
        elif way == "to coda":
            road.to_coda = True
        elif way == "fine":
            road.fine = True
        else:
            road.jump = way

    def _overlay(self, token: re.Match[str]) -> None:
        """A second line in a bar, or in as many bars as ``(&`` stood before."""
        if token[0].startswith("("):
            self.overlay_from = len(self.maker.bars)
            return
        self.lose("a second line in the same voice is left out")
        self.overlay = True
        if token[0].endswith(")"):
            self.skipped_bars = len(self.maker.bars) - self.overlay_from

    def _blank(self, token: re.Match[str]) -> None:
        """Room between notes."""

    def _other(self, token: re.Match[str]) -> None:
        if token[0] not in SILENT_SIGNS:
            self.lose(f"'{token[0]}' is no music and is left out")


KINDS = (
    "note", "blank", "bar", "tie", "broken", "rest", "bars", "tuplet", "open", "close", "quote", "ending",
    "inline", "chord", "grace", "sign", "plus", "spacer", "overlay", "letter", "other",
)  # fmt: skip


def _sounding(notes: list[RawNote]) -> list[RawNote]:
    """Notes without rests; one that is tied to the note before it in its bar is part of that."""
    found: list[RawNote] = []
    for note in notes:
        last = found[-1] if found else None
        if note.goes_on and last is not None and not note.syllable and last.pitches == note.pitches:
            last.length = note.at + note.length - last.at
            last.slurred = note.slurred
        elif note.pitches:
            found.append(note)
    return found


def _height(pitch: SpelledPitch) -> int:
    return pitch.midi
