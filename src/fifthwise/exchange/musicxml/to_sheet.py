"""The parts of a score, read, made into one lead sheet."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from fifthwise.exchange.lead_sheet import LeadBar, LeadNote
from fifthwise.exchange.left_out import LeftOut
from fifthwise.exchange.musicxml.choose import ScorePart
from fifthwise.exchange.musicxml.raw import RawBar, RawNote, RawPart
from fifthwise.exchange.road import jumps, settle_codas, together

__all__ = ["lead_bars"]

MOST_TOGETHER = 2  # notes of a tune that are kept as a double stop
# The open strings by their number, from the highest, by a word of the part's name.
STRINGS = {
    "violin": "EADG", "fiddle": "EADG", "viola": "ADGC", "cello": "ADGC", "bass": "GDAE",
}  # fmt: skip


def lead_bars(parts: Sequence[RawPart], tune: ScorePart, chords: str, left: LeftOut) -> Iterator[LeadBar]:
    """One bar after the other: the tune of one line, the chords of one part, the way from them all."""
    by_id = {part.id: part for part in parts}
    line, over = by_id[tune.part], by_id[chords]
    rows = [[p.bars[at] for p in parts if at < len(p.bars)] for at in range(max(len(p.bars) for p in parts))]
    roads = [together([bar.road for bar in row]) for row in rows]
    settle_codas(roads)
    strings = next((s for word, s in STRINGS.items() if word in tune.name.casefold()), "")
    notes = _Notes(tune.voice, _first_verse(line, tune.voice, left), strings, left)
    for at, (row, road, jump) in enumerate(zip(rows, roads, jumps(roads), strict=True)):
        heard = line.bars[at : at + 1] or row[:1]
        said = [*heard, *(over.bars[at : at + 1] if over is not line else ())]
        feels = [bar.feel for bar in row if bar.feel and at]
        yield LeadBar(
            heard[0].metre,
            _length(row, heard[0]),
            heard[0].key,
            tuple(chord for bar in over.bars[at : at + 1] for chord in bar.chords),
            tuple(note for bar in line.bars[at : at + 1] for note in notes.bar(bar)),
            road.tempo_bpm,
            road.section,
            road.repeat_start,
            road.repeat_end,
            road.endings,
            road.ends_ending,
            road.segno,
            road.coda,
            road.to_coda,
            road.fine,
            jump,
            tuple(dict.fromkeys([*feels, *(words for bar in said for _, words in bar.words)])),
        )


def _length(row: Sequence[RawBar], bar: RawBar) -> Fraction:
    """How long a bar lasts; rests that fill it are as long as its metre."""
    sounding = [each for each in row if each.length and not each.is_rest]
    if not sounding:
        lengths = [each.length for each in row if each.length and each.implicit]
        return min(max(lengths, default=bar.metre.length), bar.metre.length)
    return max(each.length for each in sounding)


def _first_verse(part: RawPart, voice: str, left: LeftOut) -> str:
    """The number of the verse that is kept."""
    verses: dict[str, str] = {}
    for bar in part.bars:
        for note in bar.notes:
            if note.voice == voice:
                verses.update({verse: bar.number for verse, _ in note.lyrics if verse not in verses})
    first = min(verses, key=_in_order, default="")
    if len(verses) > 1:
        names = sorted((verse for verse in verses if verse != first), key=_in_order)
        for verse in names[:8]:
            left.add(f"verse {verse[:12]} is left out", verses[verse])
    return first


def _in_order(verse: str) -> tuple[bool, int, str]:
    return (not verse.isdecimal(), int(verse[:9]) if verse.isdecimal() else 0, verse)


class _Notes:
    """Makes the notes of the tune of one bar after another."""

    def __init__(self, voice: str, verse: str, strings: str, left: LeftOut) -> None:
        self.voice, self.verse, self.strings, self.left = voice, verse, strings, left

    def bar(self, bar: RawBar) -> Iterator[LeadNote]:
        """Notes in order; those that begin together are one."""
        begun: dict[Fraction, list[RawNote]] = {}
        for note in bar.notes:
            if note.voice == self.voice and note.length:
                begun.setdefault(note.at, []).append(note)
        for at in sorted(begun):
            yield self._note(at, begun[at], bar.number)

    def _note(self, at: Fraction, together: list[RawNote], number: str) -> LeadNote:
        kept = sorted(together, key=lambda note: note.pitch.midi)
        if len(kept) > MOST_TOGETHER:
            self.left.add("of three notes and more together the highest is kept", number)
            kept = kept[-1:]
        syllables = [text for note in together for verse, text in note.lyrics if verse == self.verse]
        return LeadNote(
            at,
            kept[-1].length,
            tuple(note.pitch for note in kept),
            all(note.goes_on for note in kept),
            any(note.slurred for note in kept),
            tuple(pitch for note in together for pitch in note.grace),
            syllables[0] if syllables else "",
            self._fingers(kept, number),
        )

    def _fingers(self, kept: Sequence[RawNote], number: str) -> tuple[str, ...]:
        """Pins, where each note says its string and its finger."""
        pins = [pin for note in kept if (pin := self._pin(note))]
        if len(pins) == len(kept):
            return tuple(pins)
        if any(note.finger or note.string for note in kept):
            self.left.add("fingers without a string are left out", number)
        return ()

    def _pin(self, note: RawNote) -> str:
        if note.string.isdecimal():
            at = int(note.string)
            letter = self.strings[at - 1] if 0 < at <= len(self.strings) else ""
        else:
            letter = note.string
        return f"{letter}{note.finger}" if letter and note.finger else ""
