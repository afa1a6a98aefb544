"""What sounds in one bar, as ABC: notes and rests, chords and words over them, and syllables under them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from fifthwise.chart import JumpKind
from fifthwise.exchange.abc.signs import MARK_WORDS
from fifthwise.exchange.abc.write_notes import PitchWriter, length_text, simple_name, tuplet_text
from fifthwise.exchange.abc.write_texts import annotation, syllable_text
from fifthwise.exchange.lead_sheet import LeadBar, LeadChord, LeadNote
from fifthwise.exchange.musicxml.rhythm import Span, Value, values_of
from fifthwise.theory import LetterChord, NoteName, NumberChord, to_letters, write_letters, write_number

__all__ = ["BarText", "Bow", "ChordHand", "bar_text"]

JUMPS: dict[JumpKind, str] = {
    "dc al coda": "!D.C.alcoda!", "dc al fine": "!D.C.alfine!", "ds al coda": "!D.S.alcoda!",
    "ds al fine": "!D.S.alfine!",
}  # fmt: skip
MARKS = {mark: words for words, mark in MARK_WORDS.items()}
MOST_TUPLET = 9


@dataclass(slots=True)
class Bow:
    """A slur that goes on over bar lines, and the notes that are still to come."""

    notes: int
    is_open: bool = False


@dataclass(frozen=True, slots=True)
class ChordHand:
    """How chords are written at a place.

    Attributes
    ----------
    one : NoteName
        The written note from which numbers count.
    sounding_one : NoteName
        And the one that sounds.
    numbers : bool
        Whether numbers stand beside the letters.
    """

    one: NoteName
    sounding_one: NoteName
    numbers: bool

    def text(self, chord: LeadChord) -> str:
        """A chord with its marks."""
        found = []
        if chord.chord is None:
            found.append('"N.C."')
        else:
            found.append(f'"{write_letters(self._letters(chord.chord))}"')
            if self.numbers and isinstance(chord.chord, NumberChord):
                found.append(f'"^{write_number(chord.chord)}"')
        for mark in chord.marks:
            found.append("!fermata!" if mark == "hold" else f'"^{MARKS[mark]}"')
        return "".join(found)

    def _letters(self, chord: LetterChord | NumberChord) -> LetterChord:
        by = 0
        if isinstance(chord, NumberChord):
            chord = to_letters(chord, self.one)
        else:
            by = self.one.fifths - self.sounding_one.fifths
        bass = simple_name(chord.bass.fifths + by) if chord.bass else None
        return LetterChord(simple_name(chord.root.fifths + by), chord.quality, bass)


@dataclass(frozen=True, slots=True)
class BarText:
    """The music of a bar, and the syllables under it; these are empty where nothing is sung."""

    music: str
    words: str


@dataclass(frozen=True, slots=True)
class _Piece:
    """A part of a note or of a rest, from one chord to the next."""

    note: LeadNote | None
    is_first: bool


def bar_text(
    bar: LeadBar, late: Fraction, pitches: PitchWriter, hand: ChordHand, bow: Bow, *, ties: bool
) -> BarText:
    """Write a bar.

    Parameters
    ----------
    late : Fraction
        How much of its metre lies before a pickup.
    ties : bool
        Whether its last note goes on in the next bar.
    """
    pieces, spans = _pieces(bar)
    values = values_of(spans, bar.metre, late) if bar.notes else _whole(spans)
    chords = {chord.at: chord for chord in sorted(bar.chords, key=lambda chord: chord.at, reverse=True)}
    music: list[str] = []
    words: list[str] = []
    beat = bar.metre.beat
    for at, value in enumerate(values):
        piece = pieces[value.span]
        begins = value.start == spans[value.span].start
        over = "".join(_over(bar, at, at + 1 == len(values)))
        chord = chords.get(value.start) if begins else None
        said = (hand.text(chord) if chord else "") + over
        starts = piece.is_first and begins
        ends = at + 1 == len(values)
        goes_on = ties if ends else _goes_on(pieces[values[at + 1].span], piece)
        if at and (value.start + late) % beat == 0:
            music.append(" ")
        music.append(_tuplet(values, at))
        music.append(_value(value, piece.note, said, pitches, bow, starts=starts, goes_on=goes_on))
        if piece.note is not None:
            words.append(_syllable(piece.note, starts=starts))
    return BarText("".join(music), "".join(words))


def _pieces(bar: LeadBar) -> tuple[list[_Piece], tuple[Span, ...]]:
    """Notes and the rests between them, parted where chords begin."""
    chords = sorted({chord.at for chord in bar.chords if 0 < chord.at < bar.length})
    pieces: list[_Piece] = []
    spans: list[Span] = []

    def add(start: Fraction, end: Fraction, note: LeadNote | None) -> None:
        cuts = [start, *(at for at in chords if start < at < end), end]
        for at, (begin, stop) in enumerate(pairwise(cuts)):
            pieces.append(_Piece(note, at == 0))
            spans.append(Span(begin, stop, note is None))

    at = Fraction(0)
    for note in bar.notes:
        if note.at > at:
            add(at, note.at, None)
        at = min(note.at + note.length, bar.length)
        add(note.at, at, note)
    if at < bar.length:
        add(at, bar.length, None)
    return pieces, tuple(spans)


def _whole(spans: Sequence[Span]) -> tuple[Value, ...]:
    return tuple(Value(at, span.start, span.end - span.start, "") for at, span in enumerate(spans))


def _goes_on(following: _Piece, piece: _Piece) -> bool:
    """Whether a note is tied to what follows in its bar."""
    if piece.note is None or following.note is None:
        return False
    return following.note is piece.note or following.note.goes_on


def _over(bar: LeadBar, at: int, is_last: bool) -> Iterator[str]:
    """What is said over the first and the last sign of a bar."""
    if at == 0:
        yield from (annotation(words) for words in bar.words if words.strip())
        if bar.segno:
            yield "!segno!"
        if bar.coda:
            yield "!coda!"
    if is_last:
        if bar.to_coda:
            yield "!dacoda!"
        if bar.fine:
            yield "!fine!"
        if bar.jump:
            yield JUMPS[bar.jump]


def _tuplet(values: Sequence[Value], at: int) -> str:
    """How a tuplet begins, where one does."""
    ratio = values[at].ratio
    if ratio is None or "start" not in values[at].tuplet or ratio[0] > MOST_TUPLET:
        return ""
    end = next(place for place in range(at, len(values)) if "stop" in values[place].tuplet)
    return tuplet_text(*ratio, end + 1 - at)


def _value(
    value: Value,
    note: LeadNote | None,
    said: str,
    pitches: PitchWriter,
    bow: Bow,
    *,
    starts: bool,
    goes_on: bool,
) -> str:
    """One note or rest with all that stands before and behind it."""
    length = value.length
    if value.ratio is not None and value.ratio[0] <= MOST_TUPLET:
        length *= Fraction(*value.ratio)
    if note is None:
        return f"{said}z{length_text(length)}"
    before, behind = "", ""
    is_new = starts and not note.goes_on
    if is_new:
        before, behind = _bow(note, bow)
        said += "".join(f"!{pin[-1]}!" for pin in note.fingers if pin[-1].isdecimal())
        if note.grace:
            said += "{" + "".join(pitches.text(pitch) for pitch in note.grace) + "}"
    letters = [pitches.text(pitch) for pitch in note.pitches]
    sound = letters[0] if len(letters) == 1 else f"[{''.join(letters)}]"
    return f"{before}{said}{sound}{length_text(length)}{'-' if goes_on else ''}{behind}"


def _bow(note: LeadNote, bow: Bow) -> tuple[str, str]:
    """A slur begins on the first note of a bow and ends on its last."""
    bow.notes -= 1
    if note.slurred and not bow.is_open and bow.notes > 0:
        bow.is_open = True
        return "(", ""
    if bow.is_open and (not note.slurred or bow.notes == 0):
        bow.is_open = False
        return "", ")"
    return "", ""


def _syllable(note: LeadNote, *, starts: bool) -> str:
    if starts and note.syllable.strip():
        return syllable_text(note.syllable)
    return "* "
