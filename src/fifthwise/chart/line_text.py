"""A line of bars read: bar lines, repeats, marks and cues round the tokens that ``bar_text`` reads."""

from dataclasses import dataclass, field
from fractions import Fraction

from fifthwise.chart.bar_text import BarReader, ChordReader, read_cue, read_slots
from fifthwise.chart.drafts import BarDraft
from fifthwise.chart.head import Refused
from fifthwise.chart.mark_text import Bracket, read_bracket
from fifthwise.chart.model import RepeatEnd, ScopedMark
from fifthwise.chart.scope import Scope, apply_marks
from fifthwise.chart.source import FaultList
from fifthwise.chart.tokens import Token, split_line
from fifthwise.theory import Key, Metre

__all__ = ["LineReader"]

VAMP_PASSES = 4
MOST_TIMES = 32
AFTER_CHORDS = frozenset({"to coda", "fine", "ds al coda", "ds al fine", "dc al coda", "dc al fine"})


@dataclass
class Pending:
    """What has been read of a bar so far."""

    column: int = 1
    repeat_start: bool = False
    endings: tuple[int, ...] = ()
    pickup: Fraction | None = None
    metre_once: Metre | None = None
    marks: list[ScopedMark] = field(default_factory=list)
    signs: set[str] = field(default_factory=set)
    tokens: list[Token] = field(default_factory=list)
    cues: list[tuple[int, Token]] = field(default_factory=list)
    spoken: bool = False  # something stands here that must not be lost

    @property
    def empty(self) -> bool:
        """Whether nothing stands between the last bar line and here."""
        return not (self.tokens or self.cues or self.spoken)


class LineReader:
    """Reads lines of bars, keeping what holds from one bar to the next."""

    def __init__(self, head_key: Key, head: Scope, chords: ChordReader, faults: FaultList) -> None:
        self.head_key, self.head = head_key, head
        self.chords, self.faults = chords, faults
        self.scope = self.before_ending = head
        self.in_ending = False
        self.bars: list[BarDraft] = []
        self.pending = Pending()
        self.sounding = False
        self.vamp_for: BarDraft | None = None
        self.pending_line = 1

    def open_section(self) -> None:
        """Forget what held in the section before."""
        self.scope = self.before_ending = self.head
        self.in_ending = False
        self.bars = []
        self._drop_pending()

    def _drop_pending(self) -> None:
        if not self.pending.empty or self.pending.repeat_start:
            line = self.pending_line
            what, fix = "the marks at the end belong to no bar", "Put them before the bar where they begin"
            self.faults.add(line, self.pending.column, 1, what, fix)
        self.pending = Pending()

    def read_line(self, text: str, number: int) -> list[BarDraft]:
        """Read one line; returns its bars."""
        start, last_bar_line = len(self.bars), ""
        self.vamp_for = None
        for token in split_line(text):
            if token.kind == "bar":
                self._bar_line(token, number, last_bar_line)
                last_bar_line = token.text
            else:
                self._piece(token, number, after=last_bar_line)
        if self.pending.tokens:
            self._close_bar(number)
        return self.bars[start:]

    def _bar_line(self, token: Token, number: int, before: str) -> None:
        sign = token.text
        had_bar = bool(self.pending.tokens)
        if had_bar:
            self._close_bar(number)
        elif before and before[-1] == "|" and sign[0] == "|" and len(before) == len(sign) == 1:
            self.faults.add(number, token.column, 1, "this bar is empty", "Write a chord, or '0' for a rest")
        elif before == "|:" and sign[0] in "|:":
            self.faults.add(
                number, token.column, len(sign), "the repeat opens and closes nothing", "Write its bars"
            )
        if sign.startswith(":"):
            self._close_repeat(token, number)
        elif sign.startswith("||") and self.bars and (had_bar or before):
            self.bars[-1].double_bar = True
            self._leave_ending()
        if sign.endswith(":") and len(sign) > 1:
            self.pending.repeat_start, self.pending.column = True, token.column
            self.pending_line = number

    def _close_repeat(self, token: Token, number: int) -> None:
        if not self.bars:
            self.faults.add(
                number, token.column, len(token.text), "the repeat has no bars", "Write bars before ':|'"
            )
            return
        self.bars[-1].repeat_end = RepeatEnd()
        self._leave_ending()
        self.vamp_for = self.bars[-1]
        if token.text == ":||":
            self.bars[-1].double_bar = True

    def _leave_ending(self) -> None:
        if self.in_ending:
            self.scope, self.in_ending = self.before_ending, False

    def _piece(self, token: Token, number: int, after: str) -> None:
        pending = self.pending
        if pending.empty and not pending.repeat_start:
            pending.column, self.pending_line = token.column, number
        if self.vamp_for and pending.empty and after.startswith(":") and self._repeat_words(token, number):
            return
        if token.kind == "cue":
            self._cue(token, number)
        elif token.kind == "mark":
            self._mark(token, number)
        elif token.kind == "stray":
            self._stray(token, number)
        else:
            pending.tokens.append(token)

    def _repeat_words(self, token: Token, number: int) -> bool:
        """Read ``x3`` or ``vamp "till cue"`` after ``:|``."""
        bar = self.vamp_for
        assert bar is not None and bar.repeat_end is not None
        if token.kind == "word" and token.text[:1] in "x×" and token.text[1:].isdigit():
            bar.repeat_end = RepeatEnd(self._times(token, number))
            self.vamp_for = None
        elif token.kind == "word" and token.text == "vamp":
            bar.repeat_end = RepeatEnd(VAMP_PASSES, "")
        elif token.kind == "cue" and bar.repeat_end.vamp == "":
            bar.repeat_end = RepeatEnd(VAMP_PASSES, token.text[1:-1].strip())
            self.vamp_for = None
        else:
            self.vamp_for = None
            return False
        return True

    def _times(self, token: Token, number: int) -> int:
        times = int(token.text[1:])
        if 2 <= times <= MOST_TIMES:
            return times
        what = f"'{token.text}' is out of range"
        self.faults.add(number, token.column, len(token.text), what, f"Write x2 to x{MOST_TIMES}")
        return 2

    def _cue(self, token: Token, number: int) -> None:
        self.pending.cues.append((len(self.pending.tokens), token))
        self.pending.spoken = True

    def _stray(self, token: Token, number: int) -> None:
        what, fix = {
            '"': ("the cue is not closed", "End it with '\"'"),
            "[": ("the mark is not closed", "End it with ']'"),
            "(": ("the bracket is not closed", "End it with ')'"),
            "]": ("this ']' closes nothing", "Leave it out, or open the mark with '['"),
            ")": ("this ')' closes nothing", "Leave it out, or open the bracket with '('"),
        }.get(token.text, (f"'{token.text}' does not belong here", "Leave it out, or write ':|' or '|:'"))
        self.faults.add(number, token.column, 1, what, fix)

    def _mark(self, token: Token, number: int) -> None:
        try:
            bracket = read_bracket(token.text[1:-1], self.head_key)
        except Refused as refused:
            self.faults.add(number, token.column, len(token.text), refused.what, refused.fix)
            self.pending.spoken = self.pending.spoken or bool(self.pending.tokens)
            return
        self.pending.spoken = True
        late = bracket.sign in AFTER_CHORDS
        if late != bool(self.pending.tokens):
            what = f"'{token.text}' stands in the wrong place"
            fix = "Put it after the bar's last chord" if late else "Put it before the bar's first chord"
            self.faults.add(number, token.column, len(token.text), what, fix)
            return
        self._keep_mark(bracket, token, number)

    def _keep_mark(self, bracket: Bracket, token: Token, number: int) -> None:
        pending = self.pending
        if bracket.sign:
            pending.signs.add(bracket.sign)
        elif bracket.scoped:
            pending.marks.append(bracket.scoped)
        elif bracket.endings:
            pending.endings = bracket.endings
        elif bracket.metre_once:
            pending.metre_once = bracket.metre_once
        elif self.bars:
            what, fix = "a pickup is a section's first bar", "Open a section before it with '# name'"
            self.faults.add(number, token.column, len(token.text), what, fix)
        else:
            pending.pickup = bracket.pickup

    def _close_bar(self, number: int) -> None:
        pending, self.pending = self.pending, Pending()
        self.vamp_for = None
        if pending.endings:
            self._leave_ending()
            self.before_ending, self.in_ending = self.scope, True
        self.scope = apply_marks(self.scope, tuple(pending.marks), self.head_key)
        metre = pending.metre_once or self.scope.metre
        self._check_pickup(pending, metre, number)
        bar = BarDraft(
            metre, number, pending.column, self.scope.key, metre_once=pending.metre_once is not None,
            pickup=pending.pickup, marks=pending.marks, repeat_start=pending.repeat_start,
            endings=pending.endings, signs=pending.signs,
        )  # fmt: skip
        if any(token.text == "%" for token in pending.tokens):
            lengths = self._copy(bar, pending.tokens, number)
        else:
            lengths = self._fill(bar, pending.tokens, number)
        bar.cues = [read_cue(t, sum(lengths[:place], Fraction(0))) for place, t in pending.cues]
        self._check_order(pending, number)
        self.bars.append(bar)

    def _check_pickup(self, pending: Pending, metre: Metre, number: int) -> None:
        if pending.pickup is not None and pending.pickup * metre.beat >= metre.length:
            what = f"a pickup of {pending.pickup} beats is no shorter than a bar of {metre}"
            self.faults.add(number, pending.column, 1, what, "Make it shorter, or write a full bar")
            pending.pickup = None

    def _check_order(self, pending: Pending, number: int) -> None:
        """A chord after ``[to coda]`` and its like is a fault."""
        late = pending.signs & AFTER_CHORDS
        last = pending.tokens[-1]
        text = self.faults.lines[number - 1]
        for sign in late:
            at = text.lower().replace("d.s.", "ds  ").replace("d.c.", "dc  ").find(f"[{sign}]")
            if 0 <= at < last.column - 1 and at + 1 >= pending.column:
                what, fix = f"a chord follows '[{sign}]'", "Put the mark after the bar's last chord"
                self.faults.add(number, at + 1, len(sign) + 2, what, fix)

    def _copy(self, bar: BarDraft, tokens: list[Token], number: int) -> tuple[Fraction, ...]:
        sign = next(t for t in tokens if t.text == "%")
        fault = self._copy_fault(bar, tokens)
        if fault:
            self.faults.add(number, sign.column, 1, *fault)
            return ()
        before = self.bars[-1]
        bar.slots, bar.metre, bar.copied = before.slots, before.metre, True
        bar.metre_once = before.metre_once
        return (bar.metre.length,)

    def _copy_fault(self, bar: BarDraft, tokens: list[Token]) -> tuple[str, str] | None:
        if len(tokens) > 1:
            return "'%' stands beside other tokens", "Let it fill its bar alone, or write the chords"
        if not self.bars:
            return "'%' has no bar before it in this section", "Write the chords"
        if bar.endings:
            return "'%' opens an ending", "Write the chords"
        if self.bars[-1].pickup is not None:
            return "'%' follows a pickup", "Write the chords"
        if bar.metre != self.bars[-1].metre and not (self.bars[-1].metre_once and not bar.marks):
            return "'%' copies a bar of another metre", "Write the chords"
        return None

    def _fill(self, bar: BarDraft, tokens: list[Token], number: int) -> tuple[Fraction, ...]:
        self.chords.key = self.scope.key
        reader = BarReader(self.chords, bar.metre, bar.pickup, number, self.sounding)
        end = tokens[-1].column + len(tokens[-1].text)
        bar.slots, lengths = read_slots(reader, tokens, tokens[0].column, end - tokens[0].column)
        self.sounding = True
        return lengths or tuple(bar.metre.length / len(tokens) for _ in tokens)
