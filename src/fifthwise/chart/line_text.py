"""A line of bars read: bar lines, repeats, marks and cues round the tokens that ``bar_text`` reads."""

import re
from fractions import Fraction
from itertools import accumulate

from fifthwise.chart.bar_text import BarReader, ChordReader, read_cue, read_slots
from fifthwise.chart.drafts import BarDraft
from fifthwise.chart.head import Refused
from fifthwise.chart.mark_text import AFTER_CHORDS, read_bracket
from fifthwise.chart.model import RepeatEnd
from fifthwise.chart.pending import Pending
from fifthwise.chart.scope import Scope, apply_marks
from fifthwise.chart.source import FaultList
from fifthwise.chart.tokens import DEEPEST, Token, split_line
from fifthwise.theory import Key, Metre

__all__ = ["LineReader"]

VAMP_PASSES = 4
MOST_TIMES = 32
TIMES = re.compile(r"[x×]([0-9]{1,4})\Z")
PLAIN_LINES = ("|", "||")
STRAYS = {
    '"': ("the cue is not closed", "End it with '\"'"),
    "[": ("the mark is not closed", "End it with ']'"),
    "(": ("the bracket is not closed", f"End it with ')'; brackets nest {DEEPEST} deep at most"),
    "]": ("this ']' closes nothing", "Leave it out, or open the mark with '['"),
    ")": ("this ')' closes nothing", "Leave it out, or open the bracket with '('"),
}


class LineReader:
    """Reads lines of bars, keeping what holds from one bar to the next."""

    def __init__(self, head_key: Key, head: Scope, chords: ChordReader, faults: FaultList) -> None:
        self.head_key, self.head = head_key, head
        self.chords, self.faults = chords, faults
        self.scope = self.before_ending = head
        self.in_ending = False
        self.bars: list[BarDraft] = []
        self.pending = Pending()
        self.vamp_for: BarDraft | None = None

    def open_section(self) -> None:
        """Forget what held in the section before."""
        self._drop_pending()
        self.scope = self.before_ending = self.head
        self.in_ending = False
        self.bars = []

    def _drop_pending(self) -> None:
        """Cues at a section's end belong to its last chord; marks belong to nothing."""
        pending, self.pending = self.pending, Pending()
        if pending.only_cues and self.bars:
            last = self.bars[-1]
            last.cues += [read_cue(token, last.length) for _, token in pending.cues]
        elif pending.start and (pending.repeat_start or not pending.empty):
            what, fix = "the marks at the end belong to no bar", "Put them before the bar where they begin"
            self.faults.add(*pending.start, what, fix)

    def read_line(self, text: str, number: int) -> list[BarDraft]:
        """Read one line; returns its bars."""
        start, last_bar_line = len(self.bars), ""
        self.vamp_for = None
        for token in split_line(text):
            if self.faults.full:
                break
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
        elif before in PLAIN_LINES and sign in PLAIN_LINES:
            self.faults.add(number, token.column, 1, "this bar is empty", "Write a chord, or '0' for a rest")
        elif before == "|:" and sign[0] in "|:":
            what = "the repeat opens and closes nothing"
            self.faults.add(number, token.column, len(sign), what, "Write its bars")
            self.pending.repeat_start = False
            return
        if sign.startswith(":"):
            self._close_repeat(token, number)
        elif sign.startswith("||") and self.bars:
            self.bars[-1].double_bar = True
            self._leave_ending()
        if sign.endswith(":") and len(sign) > 1:
            self.pending.repeat_start = True
            self.pending.start = self.pending.start or (number, token.column, len(sign))

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
        if self.vamp_for and pending.empty and after.startswith(":") and self._repeat_words(token, number):
            return
        pending.start = pending.start or (number, token.column, len(token.text))
        if token.kind == "cue":
            pending.cues.append((len(pending.tokens), token))
        elif token.kind == "mark":
            self._mark(token, number)
        elif token.kind in ("stray", "open"):
            self._stray(token, number)
        else:
            pending.tokens.append(token)

    def _repeat_words(self, token: Token, number: int) -> bool:
        """Read ``x3`` or ``vamp "till cue"`` after ``:|``."""
        bar = self.vamp_for
        assert bar is not None
        assert bar.repeat_end is not None
        if token.kind == "word" and TIMES.match(token.text):
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

    def _stray(self, token: Token, number: int) -> None:
        other = f"'{token.text}' does not belong here", "Leave it out, or write ':|' or '|:'"
        length = len(token.text.rstrip())
        self.faults.add(number, token.column, length, *STRAYS.get(token.text[0], other))

    def _mark(self, token: Token, number: int) -> None:
        place = (number, token.column, len(token.text))
        try:
            bracket = read_bracket(token.text[1:-1], self.head_key)
        except Refused as refused:
            self.faults.add(*place, refused.what, refused.fix)
            return
        if misplaced := self.pending.misplaced(bracket):
            what, fix = misplaced
            self.faults.add(*place, f"'{token.text}' {what}", fix)
        elif bracket.pickup and self.bars:
            what, fix = "a pickup is a section's first bar", "Open a section before it with '# name'"
            self.faults.add(*place, what, fix)
        else:
            self.pending.keep(bracket, place)

    def _close_bar(self, number: int) -> None:
        pending, self.pending = self.pending, Pending()
        self.vamp_for = None
        if pending.endings:
            self._leave_ending()
            self.before_ending, self.in_ending = self.scope, True
        self.scope = apply_marks(self.scope, tuple(pending.marks), self.head_key)
        metre = pending.metre_once or self.scope.metre
        self._check_pickup(pending, metre)
        first, start = pending.tokens[0], pending.start or (number, 1, 1)
        bar = BarDraft(
            metre, start[0], start[1], self.scope.key, metre_once=pending.metre_once is not None,
            pickup=pending.pickup, marks=pending.marks, repeat_start=pending.repeat_start,
            endings=pending.endings, signs=pending.signs,
            first_token=(number, first.column, len(first.text)),
        )  # fmt: skip
        if any(token.text == "%" for token in pending.tokens):
            lengths = self._copy(bar, pending, number)
        else:
            lengths = self._fill(bar, pending.tokens, number)
        ends = (*accumulate(lengths, initial=Fraction(0)), bar.length)
        bar.cues = [read_cue(token, ends[min(place, len(ends) - 1)]) for place, token in pending.cues]
        self._check_order(pending)
        self.bars.append(bar)

    def _check_pickup(self, pending: Pending, metre: Metre) -> None:
        if pending.pickup is not None and pending.pickup * metre.beat >= metre.length:
            what = f"a pickup of {pending.pickup} beats is no shorter than a bar of {metre}"
            self.faults.add(*pending.places["pickup"], what, "Make it shorter, or write a full bar")
            pending.pickup = None

    def _check_order(self, pending: Pending) -> None:
        """A chord after ``[to coda]`` and its like is a fault."""
        for sign, (line, column, length) in pending.signs.items():
            if sign in AFTER_CHORDS and column < pending.tokens[-1].column:
                what, fix = f"a chord follows '[{sign}]'", "Put the mark after the bar's last chord"
                self.faults.add(line, column, length, what, fix)

    def _copy(self, bar: BarDraft, pending: Pending, number: int) -> tuple[Fraction, ...]:
        sign = next(t for t in pending.tokens if t.text == "%")
        fault = self._copy_fault(bar, pending)
        if fault:
            self.faults.add(number, sign.column, 1, *fault)
            return ()
        before = self.bars[-1]
        bar.slots, bar.metre, bar.copied = before.slots, before.metre, True
        bar.metre_once = before.metre_once
        return (bar.metre.length,)

    def _copy_fault(self, bar: BarDraft, pending: Pending) -> tuple[str, str] | None:
        if len(pending.tokens) > 1:
            return "'%' stands beside other tokens", "Let it fill its bar alone, or write the chords"
        if not self.bars:
            return "'%' has no bar before it in this section", "Write the chords"
        before = self.bars[-1]
        if bar.endings:
            return "'%' opens an ending", "Write the chords"
        if before.pickup is not None:
            return "'%' follows a pickup", "Write the chords"
        changes = bar.metre_once or any(mark.metre for mark in bar.marks) or not before.metre_once
        if bar.metre != before.metre and changes:
            return "'%' copies a bar of another metre", "Write the chords"
        return None

    def _fill(self, bar: BarDraft, tokens: list[Token], number: int) -> tuple[Fraction, ...]:
        self.chords.key = self.scope.key
        reader = BarReader(self.chords, bar.metre, bar.pickup, number)
        end = tokens[-1].column + len(tokens[-1].text)
        bar.slots, lengths = read_slots(reader, tokens, tokens[0].column, end - tokens[0].column)
        return lengths
