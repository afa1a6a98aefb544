"""What stands between two bar lines: tokens read and given their lengths."""

import difflib
import re
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise

from fifthwise.chart.model import MARKS, Cue, Mark, Slot, SlotKind
from fifthwise.chart.shares import Misfit, beat_lengths, check_parts, pickup_lengths, shared_lengths
from fifthwise.chart.source import FaultList
from fifthwise.chart.tokens import Token, split_group
from fifthwise.theory import ChordFault, Key, Metre, NumberChord, Numbering, plain_signs, read_chord

__all__ = ["ChordReader", "Word", "read_cue", "read_slots"]

LENGTHENERS = ("/", "-")
# Marks of which a chord can have one: when it begins, and how it ends.
CONTRADICTIONS = (("push", "push16", "late"), ("hold", "stop"))
ROOT = re.compile(r"(?:bb|##|b|#)?[1-7]")
CHANGE = re.compile(r"(?:add|no)[b#]?[0-9]{1,2}|[b#]{1,2}([0-9]{1,2})")


@dataclass(frozen=True, slots=True)
class Word:
    """A chord, rest or NC as read, without its length."""

    kind: SlotKind
    chord: NumberChord | None = None
    marks: tuple[Mark, ...] = ()


REST, NO_CHORD = Word("rest"), Word("nc")


@dataclass
class ChordReader:
    """Reads chord tokens in the key that holds, and remembers what it has read."""

    numbering: Numbering
    faults: FaultList
    key: Key
    known: dict[tuple[Key, str], Word] = field(default_factory=dict)

    def read(self, token: Token, line: int) -> Word | None:
        """Read one chord with its marks; a fault is noted and gives ``None``."""
        try:
            return self.known[self.key, token.text]
        except KeyError:
            word = self._read(token, line)
        if word and not plain_signs(token.text).startswith("bb7"):
            self.known[self.key, token.text] = word
        return word

    def _read(self, token: Token, line: int) -> Word | None:
        text = token.text
        if text.upper().startswith("N.C."):
            text = "NC" + text[4:]
        name, *marks = text.split(".")
        kept = self._marks(marks, token, line)
        if name == "NC":
            return Word("nc", None, kept)
        if name in ("0", *LENGTHENERS, "%"):
            self.faults.add(
                line, token.column, len(token.text), f"'{name}' takes no marks", f"Write '{name}'"
            )
            return None
        return self._chord(name, kept, token, line)

    def _chord(self, name: str, marks: tuple[Mark, ...], token: Token, line: int) -> Word | None:
        try:
            chord = read_chord(name, self.key, self.numbering)
        except ChordFault as fault:
            self.faults.add(line, token.column, len(name), fault.what, fault.fix, fault.mends)
            return None
        self._tell_doubtful(name, token, line)
        return Word("chord", chord, marks)

    def _tell_doubtful(self, name: str, token: Token, line: int) -> None:
        plain = plain_signs(name)
        if plain.startswith("bb7"):
            what, fix = f"'{name}' is the double-flat seven", "Did you mean 'Bb7'?"
            self.faults.tell(line, token.column, len(name), what, fix)
        elif self.numbering.lowers(self.key) and plain[:2] in ("b3", "b6", "b7"):
            what = f"'{name}' lowers a {plain[1]} that is low already in natural numbering"
            self.faults.tell(line, token.column, len(name), what, f"Did you mean '{name[1:]}'?")

    def _marks(self, names: list[str], token: Token, line: int) -> tuple[Mark, ...]:
        for name in names:
            if name not in MARKS:
                at = token.column + max(0, token.text.find("." + name))
                near = difflib.get_close_matches(name, MARKS, n=1)
                fix = (
                    f"Did you mean '.{near[0]}'?"
                    if near
                    else f"Marks are {', '.join('.' + m for m in MARKS)}"
                )
                self.faults.add(line, at, len(name) + 1, f"'.{name}' is no mark of a chord", fix)
        self._note_contradiction(names, token, line)
        return tuple(mark for mark in MARKS if mark in names)

    def _note_contradiction(self, names: list[str], token: Token, line: int) -> None:
        for group in CONTRADICTIONS:
            found = [f".{name}" for name in dict.fromkeys(names) if name in group]
            if len(found) > 1:
                what = f"{' and '.join(found)} contradict each other"
                self.faults.add(line, token.column, len(token.text), what, "Keep one of them")


def read_cue(token: Token, at: Fraction = Fraction(0)) -> Cue:
    """Read a cue; ``"@fiddle fills"`` stands on the fiddle's page only."""
    text = token.text[1:-1].strip()
    if not text.startswith("@"):
        return Cue(text, None, at)
    player, _, rest = text[1:].partition(" ")
    return Cue(rest.strip(), player.lower().rstrip(":,"), at)


@dataclass
class BarReader:
    """Reads the tokens of one bar."""

    chords: ChordReader
    metre: Metre
    pickup: Fraction | None
    line: int

    def lengths(self, words: tuple[str, ...]) -> tuple[Fraction, ...]:
        """How long each word of the bar lasts."""
        if self.pickup is not None:
            return pickup_lengths(self.metre, self.pickup, words)
        if len(words) == 1:
            return (self.metre.length,)
        if any(w in ("/", "0") or w[0] == "(" for w in words):
            return beat_lengths(self.metre, words)
        return shared_lengths(self.metre, words)

    def slots(self, tokens: list[Token]) -> tuple[tuple[Slot, ...], tuple[Fraction, ...]]:
        """The bar's slots, and the length of each token."""
        lengths = self.lengths(tuple(token.text for token in tokens))
        slots: list[Slot] = []
        for token, length in zip(tokens, lengths, strict=True):
            self._token(token, length, slots, first=token is tokens[0])
        return tuple(slots), lengths

    def _token(self, token: Token, length: Fraction, slots: list[Slot], *, first: bool) -> None:
        if token.kind == "group":
            self._group(token, length, slots)
        elif token.text in LENGTHENERS:
            self._lengthen(token, length, slots, may_open=first)
        elif token.text == "0":
            slots.append(Slot("rest", length))
        else:
            word = self.chords.read(token, self.line)
            if word is None:
                raise Unreadable
            slots.append(Slot(word.kind, length, word.chord, word.marks))

    def _lengthen(self, token: Token, length: Fraction, slots: list[Slot], *, may_open: bool) -> None:
        if token.text == "-" and not may_open:
            raise StrayDash(token)
        if slots:
            last = slots[-1]
            slots[-1] = Slot(last.kind, last.length + length, last.chord, last.marks)
        else:
            slots.append(Slot("hold", length))

    def _group(self, token: Token, length: Fraction, slots: list[Slot]) -> None:
        if not token.text.endswith(")"):
            raise Misfit("a group takes no marks", "Put the mark on a chord inside the brackets")
        inner = split_group(token.text, token.column)
        if not inner:
            raise Misfit("the brackets are empty", "Write what shares the beat, as in '(1 4)'")
        share, begun = length / len(inner), len(slots)
        for item in inner:
            self._token(item, share, slots, first=item is inner[0])
        check_parts(length, [slot.length for slot in slots[begun:]])


def _note_change_apart(reader: BarReader, tokens: list[Token]) -> bool:
    """Note a bracketed change that does not touch its chord: ``57 (b9)``."""
    for before, token in pairwise(tokens):
        if token.kind != "group" or before.kind != "word":
            continue
        if all(map(_is_change, token.text[1:].rpartition(")")[0].split())):
            joined = f"{before.text}{token.text}"
            what, fix = f"'{token.text}' stands apart from its chord", f"Did you mean '{joined}'?"
            place = (reader.line, before.column, _end(token) - before.column)
            reader.chords.faults.add(*place, what, fix, (joined,))
            return True
    return False


def _end(token: Token) -> int:
    """The column behind a token."""
    return token.column + len(token.text)


def _is_change(text: str) -> bool:
    """Whether a word can only be a change: ``b9`` is one, ``b7`` is a chord too."""
    match = CHANGE.fullmatch(text)
    return match is not None and (match[1] in (None, "9", "10", "11", "13") or text in ("b5", "#5"))


class Unreadable(Exception):
    """A token whose fault has been noted already."""


class StrayDash(Exception):
    """A ``-`` that follows a chord: a minor sign gone astray, or one more beat."""

    def __init__(self, token: Token) -> None:
        super().__init__(token)
        self.token = token


def read_slots(
    reader: BarReader, tokens: list[Token], column: int, length: int
) -> tuple[tuple[Slot, ...], tuple[Fraction, ...]]:
    """Read a bar's slots; a fault is noted and gives none."""
    try:
        if _note_change_apart(reader, tokens):
            raise Unreadable
        return reader.slots(tokens)
    except Unreadable:
        _read_rest(reader, tokens)
    except StrayDash as dash:
        _note_dash(reader, tokens, dash.token)
    except Misfit as misfit:
        noted = len(reader.chords.faults.faults)
        _read_rest(reader, tokens)
        # A mend that keeps another fault would mend nothing.
        mends = misfit.mends if len(reader.chords.faults.faults) == noted else ()
        reader.chords.faults.add(reader.line, column, length, misfit.what, misfit.fix, mends)
    return (), ()


def _note_dash(reader: BarReader, tokens: list[Token], dash: Token) -> None:
    """Ask what a dash behind a chord means; its mends stand for the chord and all up to the dash."""
    beside = _beside(tokens, dash)
    chords = [token for token in beside if token.kind == "word" and token.text not in LENGTHENERS]
    last = [token for token in chords if token.column < dash.column][-1:]
    between = " /" * sum(last[0].column < token.column < dash.column for token in beside) if last else ""
    text = last[0].text if last else "6"
    longer, chord = f"{text}{between} /", ROOT.match(text)
    what, fix = f"'{text} -' is not clear", f"Did you mean '{longer}' (one more beat)?"
    mends = {longer: "/"}
    if chord:
        minor = f"{chord[0]}-{text[chord.end() :]}{between}"
        fix = f"Did you mean '{minor}' (minor) or '{longer}' (one more beat)?"
        mends = {minor: "", longer: "/"}
    fitting = tuple(mend for mend, put in mends.items() if last and _fits(reader, tokens, dash, put))
    column = last[0].column if last else dash.column
    reader.chords.faults.add(reader.line, column, _end(dash) - column, what, fix, fitting)


def _fits(reader: BarReader, tokens: list[Token], dash: Token, put: str) -> bool:
    """Whether the bar still adds up with something else, or nothing, in a dash's place."""
    words = (put if token is dash else token.text for token in tokens)
    try:
        reader.lengths(tuple(filter(None, words)))
    except Misfit:
        return False
    return True


def _beside(tokens: list[Token], dash: Token) -> list[Token]:
    """The tokens that a dash stands among: the bar's, or those of its group."""
    for token in tokens:
        if token.kind == "group" and token.column < dash.column < _end(token):
            return _beside(split_group(token.text, token.column), dash)
    return tokens


def _read_rest(reader: BarReader, tokens: list[Token]) -> None:
    """Note the faults of the bar's other chords too, each once."""
    for token in tokens:
        plain = token.kind == "word" and token.text not in ("0", "%", *LENGTHENERS)
        if plain and (reader.line, token.column) not in reader.chords.faults.places:
            reader.chords.read(token, reader.line)
