"""The notes and rests of a bar as ``note`` elements, chords between them where they begin."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from fifthwise.exchange.lead_sheet import LeadBar, LeadChord, LeadNote
from fifthwise.exchange.musicxml.pen import element, escaped
from fifthwise.exchange.musicxml.rhythm import Span, Value, values_of
from fifthwise.exchange.musicxml.write_directions import mark_words
from fifthwise.exchange.musicxml.write_harmony import Count, harmony
from fifthwise.theory import Interval, SpelledPitch, transpose

__all__ = ["BarWriter", "Carried", "Laid", "laid"]

LOWEST_OCTAVE, HIGHEST_OCTAVE = 0, 9


@dataclass(slots=True)
class Carried:
    """What goes on over a bar line: how many notes are to come, a slur, and whether a word has begun."""

    notes: int
    slurred: bool = False
    in_word: bool = False


@dataclass(frozen=True, slots=True)
class Laid:
    """A bar's notes and rests, and the note values that they are written in."""

    spans: tuple[Span, ...]
    values: tuple[Value, ...]


def laid(bar: LeadBar, late: Fraction) -> Laid:
    """Lay a bar out; ``late`` is how much of its metre lies before a pickup."""
    spans = _spans(bar)
    if not bar.notes and bar.length == bar.metre.length:
        return Laid(spans, (Value(0, Fraction(0), bar.length, ""),))
    return Laid(spans, values_of(spans, bar.metre, late))


def _spans(bar: LeadBar) -> tuple[Span, ...]:
    """The bar's notes and the rests between them, from its start to its end."""
    found: list[Span] = []
    at = Fraction(0)
    for note in bar.notes:
        if note.at > at:
            found.append(Span(at, note.at, True))
        at = min(note.at + note.length, bar.length)
        found.append(Span(note.at, at, False))
    if at < bar.length:
        found.append(Span(at, bar.length, True))
    return tuple(found)


class BarWriter:
    """Writes what sounds in one bar.

    Parameters
    ----------
    divisions : int
        Of a quarter.
    by : Interval
        From the sounding note to the written one.
    ties : bool
        Whether the bar's last note is tied to the next bar's first.
    """

    def __init__(
        self,
        bar: LeadBar,
        laid: Laid,
        divisions: int,
        by: Interval,
        count: Count,
        carried: Carried,
        *,
        ties: bool,
    ) -> None:
        self.bar, self.divisions, self.by, self.count, self.carried = bar, divisions, by, count, carried
        self.spans, self.values, self.ties = laid.spans, laid.values, ties
        self.notes = self._notes()

    def _notes(self) -> list[LeadNote | None]:
        """The note of each span; ``None`` for a rest."""
        notes = iter(self.bar.notes)
        return [None if span.is_rest else next(notes) for span in self.spans]

    def text(self) -> Iterator[str]:
        """Chords and notes in their order."""
        chords = sorted(self.bar.chords, key=lambda chord: chord.at)
        written = 0
        for at, value in enumerate(self.values):
            following, last = written, at + 1 == len(self.values)
            while following < len(chords) and (last or chords[following].at < value.start + value.length):
                following += 1
            here, written = chords[written:following], following
            sounds = self.notes[value.span] is not None  # a fermata over a rest would hold a silence
            held = sounds and any(chord.at == value.start and "hold" in chord.marks for chord in here)
            for chord in here:
                yield self._chord(chord, value.start, sounds=sounds)
            yield from self._value(self.values, at, held=held)

    def _chord(self, chord: LeadChord, now: Fraction, *, sounds: bool) -> str:
        later = chord.at - now
        offset = element("offset", self._duration(later)) if later else ""
        marks = mark_words(chord.marks, offset, held=sounds and not later)
        return f"{marks}<harmony>{harmony(chord.chord, self.count)}{offset}</harmony>"

    def _duration(self, length: Fraction) -> int:
        return length.numerator * self.divisions // length.denominator

    def _value(self, values: Sequence[Value], at: int, *, held: bool) -> Iterator[str]:
        value = values[at]
        note = self.notes[value.span]
        fermata = ["<fermata/>"] if held else []
        tail = _tail(value.type, value.dots, value.ratio, value.beams)
        if note is None:
            rest = "<rest/>" if value.type else '<rest measure="yes"/>'
            yield self._note(rest, self._duration(value.length), "", tail, _tuplets(value) + fermata, "")
            return
        first = at == 0 or values[at - 1].span != value.span
        last = at + 1 == len(values) or values[at + 1].span != value.span
        if first and not note.goes_on:
            yield from (self._grace(pitch) for pitch in note.grace)
        stops, starts = not first or note.goes_on, not last or self._ties_on(value.span)
        notations = [*_tied(stops, starts), *_tuplets(value)]
        slurs = self._slurs(note, first=first, last=last)
        lyric = self._lyric(note) if first and not note.goes_on else ""
        for place, pitch in enumerate(note.pitches):
            chord = "<chord/>" if place else ""
            pins = _pin(note, place) if first and not note.goes_on else []
            noted = notations + ([] if place else slurs) + pins + ([] if place else fermata)
            ties = "".join(f'<tie type="{kind}"/>' for kind in _tie_types(stops, starts))
            named = tail.partition("<beam")[0] if place else tail
            what = chord + self._pitch(pitch)
            yield self._note(what, self._duration(value.length), ties, named, noted, "" if place else lyric)

    def _ties_on(self, span: int) -> bool:
        """Whether the next note goes on from this one."""
        if span + 1 == len(self.spans):
            return self.ties
        following = self.notes[span + 1]
        return following is not None and following.goes_on

    def _note(
        self, what: str, duration: int, ties: str, tail: str, notations: Sequence[str], lyric: str
    ) -> str:
        noted = element("notations", "".join(notations)) if notations else ""
        return f"<note>{what}<duration>{duration}</duration>{ties}<voice>1</voice>{tail}{noted}{lyric}</note>"

    def _pitch(self, pitch: SpelledPitch) -> str:
        written = transpose(pitch, self.by) if self.by.fifths or self.by.octaves else pitch
        name = written.name
        alter = element("alter", name.alter) if name.alter else ""
        octave = min(max(written.octave, LOWEST_OCTAVE), HIGHEST_OCTAVE)
        return element("pitch", f"<step>{name.letter}</step>{alter}<octave>{octave}</octave>")

    def _grace(self, pitch: SpelledPitch) -> str:
        return f'<note><grace slash="yes"/>{self._pitch(pitch)}<voice>1</voice><type>eighth</type></note>'

    def _slurs(self, note: LeadNote, *, first: bool, last: bool) -> list[str]:
        """A slur begins on the first note of a bow and ends on its last."""
        found = []
        ends = not note.slurred or self.carried.notes == 1
        if first and self.carried.slurred and ends and not note.goes_on:
            found.append('<slur number="1" type="stop"/>')
            self.carried.slurred = False
        self.carried.notes -= first and not note.goes_on
        if first and note.slurred and not self.carried.slurred and self.carried.notes > 0:
            found.append('<slur number="1" type="start"/>')
            self.carried.slurred = True
        return found

    def _lyric(self, note: LeadNote) -> str:
        """A syllable, and whether its word goes on from the one before and to the next."""
        text, goes_on = note.syllable.removesuffix("-"), note.syllable.endswith("-")
        if not text.strip():
            return ""
        kinds = {
            (False, False): "single",
            (False, True): "begin",
            (True, True): "middle",
            (True, False): "end",
        }
        kind = kinds[self.carried.in_word, goes_on]
        self.carried.in_word = goes_on
        return f'<lyric number="1"><syllabic>{kind}</syllabic>{element("text", escaped(text))}</lyric>'


@lru_cache(maxsize=1024)
def _tail(kind: str, dots: int, ratio: tuple[int, int] | None, beams: tuple[str, ...]) -> str:
    """A value's name, dots, tuplet and beams."""
    named = element("type", kind) + "<dot/>" * dots if kind else ""
    if ratio is not None:
        counted = element("actual-notes", ratio[0]) + element("normal-notes", ratio[1])
        named += element("time-modification", counted)
    return named + "".join(f'<beam number="{n}">{beam}</beam>' for n, beam in enumerate(beams, 1))


def _tie_types(stops: bool, starts: bool) -> list[str]:
    return ["stop"] * stops + ["start"] * starts


def _tied(stops: bool, starts: bool) -> list[str]:
    return [f'<tied type="{kind}"/>' for kind in _tie_types(stops, starts)]


def _tuplets(value: Value) -> list[str]:
    return [f'<tuplet type="{kind}"/>' for kind in value.tuplet]


def _pin(note: LeadNote, place: int) -> list[str]:
    """A pin as a finger, and with the letter of its string, whose number only an instrument would tell."""
    if not note.fingers:
        return []
    pin = note.fingers[place]
    return [element("technical", element("fingering", pin[-1]) + element("other-technical", pin))]
