"""One part read bar by bar: a cursor that notes, ``forward`` and ``backup`` move."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from xml.etree.ElementTree import Element

from fifthwise.chart import MARKS, Mark
from fifthwise.exchange.lead_sheet import LeadChord
from fifthwise.exchange.left_out import LeftOut
from fifthwise.exchange.musicxml.raw import RawBar, RawNote, RawPart
from fifthwise.exchange.musicxml.read_attributes import Attributes, read_attributes
from fifthwise.exchange.musicxml.read_direction import read_barline, read_direction, read_sound
from fifthwise.exchange.musicxml.read_harmony import UNREAD, moved, read_harmony
from fifthwise.exchange.musicxml.read_note import ReadNote, read_note
from fifthwise.exchange.musicxml.values import Place, text_at
from fifthwise.theory import ChordFault, SpelledPitch

__all__ = ["read_part"]

MOST_SLURS = 16  # open at one time
# Held longer than this, a bar is a slip of the pen; so is a chord that is set off from its place by more.
LONGEST_BAR = Fraction(64)


def read_part(part: RawPart, measures: list[Element], file: str, left: LeftOut) -> RawPart:
    """Read a part's bars.

    Raises
    ------
    UnreadableFile
        A number in it is none, or out of bounds.
    """
    reader = _PartReader(part, Place(file, part.id), left)
    for measure in measures:
        reader.bar(measure)
    reader.close()
    return part


class _PartReader:
    """What is held from one bar to the next."""

    def __init__(self, part: RawPart, place: Place, left: LeftOut) -> None:
        self.part, self.place, self.left = part, place, left
        self.now: RawBar
        self.held = self.next_held = Attributes()
        self.cursor = self.onset = Fraction(0)
        self.rests: list[ReadNote] = []
        self.fermatas: list[Fraction] = []
        self.carried: list[LeadChord] = []  # chords set off into the next bar
        self.graces: dict[str, list[SpelledPitch]] = {}
        self.lines: dict[str, list[RawNote]] = {}
        self.slurs: dict[tuple[str, str], int] = {}  # where each began in its voice
        self.readers: dict[str, Callable[[Element], None]] = {
            "note": self._note, "backup": self._backup, "forward": self._forward, "harmony": self._harmony,
            "attributes": self._attributes, "direction": self._direction, "sound": self._sound,
            "barline": self._barline, "figured-bass": self._figured_bass,
        }  # fmt: skip

    def bar(self, measure: Element) -> None:
        """Read one bar."""
        number = (measure.get("number") or str(len(self.part.bars) + 1))[:12]
        self.place.bar = number
        self.held = self.next_held
        implicit = measure.get("implicit") == "yes"
        self.now = RawBar(number, self.held.metre, self.held.key, implicit, chords=self.carried)
        self.cursor, self.rests, self.carried, self.fermatas = Fraction(0), [], [], []
        for child in measure:
            reader = self.readers.get(child.tag)
            if reader is not None:
                reader(child)
        self._end_bar()
        self.part.bars.append(self.now)

    def _end_bar(self) -> None:
        bar = self.now
        bar.is_rest = not bar.notes and len(self.rests) > 0 and all(rest.fills for rest in self.rests)
        bar.chords.sort(key=lambda chord: chord.at)
        self._mark_chords()

    def _mark_chords(self) -> None:
        """Give each mark to the chord that begins where it stands; words without one stay words."""
        begun = {chord.at for chord in self.now.chords}
        self.now.marks += [(at, "hold") for at in self.fermatas if at in begun]
        said_at: dict[Fraction, set[Mark]] = {}
        for at, mark in self.now.marks:
            said_at.setdefault(at, set()).add(mark)
            if at not in begun:
                self.left.add("a mark over no chord is left out", self.place.bar)
        for i, chord in enumerate(self.now.chords):
            said = said_at.get(chord.at, set())
            if said and chord.chord is not None:
                marks = tuple(mark for mark in MARKS if mark in said)
                self.now.chords[i] = replace(chord, marks=marks)

    def close(self) -> None:
        """Tell what was left open."""
        if any(self.graces.values()):
            self.left.add("grace notes behind the last note are left out", self.place.bar)

    def _attributes(self, element: Element) -> None:
        """A key or a metre that stands behind notes holds from the next bar on."""
        self.next_held = read_attributes(element, self.next_held, self.place, self.left)
        self.held = replace(self.held, divisions=self.next_held.divisions, sounding=self.next_held.sounding)
        if self.cursor == 0 and not self.now.notes:
            self.held = self.next_held
            self.now.key, self.now.metre = self.held.key, self.held.metre

    def _offset(self, element: Element) -> Fraction:
        text = text_at(element, "offset")
        if not text:
            return self.cursor
        sign = -1 if text.startswith("-") else 1
        offset = self.place.decimal(text.lstrip("+-"), "offset") / self.held.divisions
        return max(self.cursor + sign * offset, Fraction(0))

    def _harmony(self, element: Element) -> None:
        try:
            chord = read_harmony(element, self.held.written, self.place, self.left)
        except ChordFault:
            self.left.add(UNREAD, self.place.bar)
            return
        if element.find("frame") is not None:
            self.left.add("fingerboard pictures of chords are left out", self.place.bar)
        sounding = self.held.sounding + self.held.turn
        found = moved(LeadChord(self._offset(element), chord), sounding)
        beyond = found.at - self.now.metre.length
        if beyond >= 0 and found.at > self.cursor:
            self.carried.append(replace(found, at=min(beyond, LONGEST_BAR)))
        else:
            self.now.chords.append(found)

    def _direction(self, element: Element) -> None:
        read_direction(element, self._offset(element), self.now, self.place, self.left)

    def _sound(self, element: Element) -> None:
        read_sound(element, self.now.road, self.place)

    def _barline(self, element: Element) -> None:
        read_barline(element, self.now.road, self.place)

    def _figured_bass(self, element: Element) -> None:
        self.left.add("figured bass is left out", self.place.bar)

    def _backup(self, element: Element) -> None:
        self.cursor = max(Fraction(0), self.cursor - self._duration(element))

    def _forward(self, element: Element) -> None:
        self._move(self._duration(element))

    def _duration(self, element: Element) -> Fraction:
        return self.place.decimal(text_at(element, "duration"), "duration") / self.held.divisions

    def _move(self, by: Fraction) -> None:
        self.cursor = min(self.cursor + by, LONGEST_BAR)
        self.now.length = max(self.now.length, self.cursor)

    def _note(self, element: Element) -> None:
        note = read_note(element, self.held.divisions, self.place, self.left)
        if note is None:
            self._skip(element)
        elif note.grace:
            if note.pitch is not None:
                self.graces.setdefault(note.voice, []).append(self.held.sound(note.pitch))
        elif note.joins:
            self._add(note, self.onset)
        else:
            self.onset = self.cursor
            if note.fermata:
                self.fermatas.append(self.onset)
            self._add(note, self.onset)
            self._move(note.length)

    def _skip(self, element: Element) -> None:
        """A cue takes its time, and is not played."""
        duration = text_at(element, "duration")
        if duration and element.find("chord") is None:
            self._move(self.place.decimal(duration, "duration") / self.held.divisions)

    def _add(self, note: ReadNote, at: Fraction) -> None:
        if note.pitch is None:
            self.rests.append(note)
            return
        grace = tuple(self.graces.pop(note.voice, ()))
        raw = RawNote(
            note.voice, at, note.length, self.held.sound(note.pitch), note.goes_on, False, grace, note.lyrics,
            note.string, note.finger,
        )  # fmt: skip
        line = self.lines.setdefault(note.voice, [])
        for number, kind in sorted(note.slurs, key=lambda slur: slur[1] == "start"):
            self._slur((note.voice, number), kind, line)
        line.append(raw)
        self.now.notes.append(raw)

    def _slur(self, slur: tuple[str, str], kind: str, line: list[RawNote]) -> None:
        """Slur every note from a slur's first to the one before its last."""
        if kind == "start" and (len(self.slurs) < MOST_SLURS or slur in self.slurs):
            self.slurs[slur] = len(line)
        elif kind == "stop" and slur in self.slurs:
            for begun in line[self.slurs.pop(slur) :]:
                begun.slurred = True
