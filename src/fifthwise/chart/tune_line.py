"""``tune:`` lines read against the bars that they belong to."""

import re
from fractions import Fraction

from fifthwise.chart.drafts import BarDraft
from fifthwise.chart.model import TuneNote
from fifthwise.chart.shares import Misfit, check_parts, counted
from fifthwise.chart.source import FaultList
from fifthwise.chart.tokens import Token
from fifthwise.chart.tune_text import TuneWord, read_tune_word

__all__ = ["Cell", "read_tune_bars", "split_cells", "token_count"]

LEX = re.compile(r"(?P<open>\()|(?P<close>\))|(?P<word>(?:\{[^{}|]*\})?[^\s(){}|]+|\{[^\s|]*|[^\s|])")
BAR_LINE = re.compile(r"\|\|?")
# Deeper than anyone plays, and far from where Python's own stack ends.
DEEPEST = 6
# One bar's text of a tune line, its column and its line, both from 1.
Cell = tuple[str, int, int]
# What a leaf of a bar's tune becomes: (word, length, token).
Leaf = tuple[TuneWord, Fraction, Token]


def split_cells(text: str, start: int) -> list[tuple[str, int]]:
    """Split a line at its bar lines; each cell with the column where it begins."""
    cells, at = [], start
    for match in BAR_LINE.finditer(text, start):
        cells.append((text[at : match.start()], at + 1))
        at = match.end()
    cells.append((text[at:], at + 1))
    if len(cells) > 1 and not cells[0][0].strip():
        cells.pop(0)
    if len(cells) > 1 and not cells[-1][0].strip():
        cells.pop()
    return cells


def token_count(cell: str) -> int:
    """How many tokens a cell has, a group counting as one; what cannot be read counts too."""
    try:
        return len(_tree(cell, 1))
    except Unbalanced:
        return 1


def read_tune_bars(cells: list[Cell], bars: list[BarDraft], faults: FaultList, *, sounding: bool) -> None:
    """Read the cells of tune lines into their bars.

    Parameters
    ----------
    cells : list of (text, column, line)
    bars : list of BarDraft
        The bars they belong to, one for each cell.
    sounding : bool
        Whether the tune has sounded before, so that a hold may open a bar.
    """
    for (cell, column, number), bar in zip(cells, bars, strict=True):
        bar.tune = _read_bar(cell, column, number, bar, faults, sounding=sounding)
        sounding = True


def _read_bar(
    cell: str, column: int, number: int, bar: BarDraft, faults: FaultList, *, sounding: bool
) -> tuple[TuneNote, ...]:
    if not cell.strip():
        faults.add(number, column, len(cell), "this bar of the tune is empty", "Write '0' for a rest")
        return ()
    first = column + len(cell) - len(cell.lstrip())
    leaves: list[Leaf] = []
    try:
        tree = _tree(cell, column)
        for item, length in zip(tree, _lengths(tree, bar), strict=True):
            begun = len(leaves)
            _spread(item, length, number, bar, faults, leaves)
            check_parts(length, [part for _, part, _ in leaves[begun:]])
    except Unbalanced as fault:
        faults.add(number, fault.column, 1, fault.what, fault.fix)
        return ()
    except Misfit as misfit:
        faults.add(number, first, len(cell.strip()), misfit.what, misfit.fix)
        return ()
    return _merge(leaves, number, bar, faults, sounding=sounding)


class Unbalanced(Exception):
    """A bracket of a tune that does not fit."""

    def __init__(self, column: int, what: str, fix: str) -> None:
        super().__init__(column, what, fix)
        self.column, self.what, self.fix = column, what, fix


Tree = Token | list["Tree"]


def _tree(cell: str, column: int) -> list[Tree]:
    """The cell's tokens, each group a list."""
    top: list[Tree] = []
    stack, opened = [top], [column]
    for match in LEX.finditer(cell):
        at = column + match.start()
        if match["open"]:
            if len(stack) > DEEPEST:
                raise Unbalanced(at, "the groups nest too deep", f"Nest them {DEEPEST} deep at most")
            group: list[Tree] = []
            stack[-1].append(group)
            stack.append(group)
            opened.append(at)
        elif match["close"]:
            _close(stack, opened, at)
        else:
            stack[-1].append(Token("word", match["word"], at))
    if len(stack) > 1:
        raise Unbalanced(opened[-1], "the group is not closed", "End it with ')'")
    return top


def _close(stack: list[list[Tree]], opened: list[int], at: int) -> None:
    if len(stack) == 1:
        raise Unbalanced(at, "this ')' closes nothing", "Leave it out, or open the group with '('")
    if not stack.pop():
        raise Unbalanced(opened[-1], "the group is empty", "Write what shares the beat, as in '(1 2)'")
    opened.pop()


def _lengths(tree: list[Tree], bar: BarDraft) -> list[Fraction]:
    if len(tree) == 1 and isinstance(tree[0], Token) and tree[0].text in ("0", "-"):
        return [bar.length]
    beats = bar.pickup if bar.pickup is not None else Fraction(bar.metre.beats)
    whole, part = int(beats), beats - int(beats)
    lengths = ([part * bar.metre.beat] if part else []) + [bar.metre.beat] * whole
    if len(lengths) != len(tree):
        what = f"{counted(len(tree), 'token')} of tune for {counted(beats, 'beat')}"
        raise Misfit(what, "Write one token a felt beat: '-' holds, '0' rests, ( ) divides a beat")
    return lengths


def _spread(
    item: Tree, length: Fraction, number: int, bar: BarDraft, faults: FaultList, leaves: list[Leaf]
) -> None:
    if isinstance(item, list):
        for part in item:
            _spread(part, length / len(item), number, bar, faults, leaves)
        return
    word = read_tune_word(item.text, lowers=_lowers(bar, faults))
    if word is None:
        what, fix = (
            f"'{item.text}' is no note of a tune",
            'Write a degree with octave marks, as in "b3", "5," or "1\'"',
        )
        faults.add(number, item.column, len(item.text), what, fix)
        word = TuneWord("rest")
    leaves.append((word, length, item))


def _lowers(bar: BarDraft, faults: FaultList) -> bool:
    return faults.natural and bar.key.is_minor


def _merge(
    leaves: list[Leaf], number: int, bar: BarDraft, faults: FaultList, *, sounding: bool
) -> tuple[TuneNote, ...]:
    notes: list[TuneNote] = []
    owners: list[int | None] = []
    for word, length, token in leaves:
        if word.kind == "hold" and notes:
            last = notes[-1]
            notes[-1] = TuneNote(
                last.kind, last.length + length, last.pitches, last.slur, last.grace, last.slide, last.fingers
            )
        else:
            if word.kind == "hold" and not sounding:
                faults.add(number, token.column, 1, "nothing sounds before this '-'", "Write a note, or '0'")
            notes.append(TuneNote(word.kind, length, word.pitches, word.slur, word.grace, word.slide))  # type: ignore[arg-type]  # TuneWord kinds are TuneNote kinds
        owners.append(len(notes) - 1 if word.kind == "note" else None)
    bar.fingerable = tuple(owners)
    return tuple(notes)
