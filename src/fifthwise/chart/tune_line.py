"""``tune:`` and ``fingers:`` lines read against the bars that they belong to."""

import re
from fractions import Fraction

from fifthwise.chart.drafts import BarDraft
from fifthwise.chart.model import TuneNote
from fifthwise.chart.source import FaultList
from fifthwise.chart.tokens import Token
from fifthwise.chart.tune_text import TuneWord, read_fingers, read_tune_word

__all__ = ["read_finger_bars", "read_tune_bars", "split_cells"]

LEX = re.compile(r"(?P<open>\()|(?P<close>\))|(?P<word>(?:\{[^{}|]*\})?[^\s(){}|]+|\{[^\s|]*)")
# What a leaf of a bar's tune becomes: (word, length, token).
Leaf = tuple[TuneWord, Fraction, Token]


def split_cells(text: str, start: int) -> list[tuple[str, int]]:
    """Split a line at its bar lines; each cell with the column where it begins."""
    cells, at = [], start
    for part in text[start:].split("|"):
        cells.append((part, at + 1))
        at += len(part) + 1
    if len(cells) > 1 and not cells[0][0].strip():
        cells.pop(0)
    if len(cells) > 1 and not cells[-1][0].strip():
        cells.pop()
    return cells


def read_tune_bars(
    text: str, start: int, number: int, bars: list[BarDraft], faults: FaultList, *, sounding: bool
) -> None:
    """Read one tune line into its bars.

    Parameters
    ----------
    text : str
        The whole line, of which ``start`` characters are its name.
    bars : list of BarDraft
        The bars it belongs to, one for each of its cells.
    sounding : bool
        Whether the tune has sounded before, so that a hold may open a bar.
    """
    for (cell, column), bar in zip(split_cells(text, start), bars, strict=True):
        bar.tune = _read_bar(cell, column, number, bar, faults, sounding=sounding)
        sounding = True


def _read_bar(
    cell: str, column: int, number: int, bar: BarDraft, faults: FaultList, *, sounding: bool
) -> tuple[TuneNote, ...]:
    tree = _tree(cell, column, number, faults)
    if not tree:
        if not cell.strip():
            faults.add(number, column, len(cell), "this bar of the tune is empty", "Write '0' for a rest")
        return ()
    lengths = _lengths(tree, bar)
    if lengths is None:
        end = column + len(cell.rstrip()) - len(cell) + len(cell.lstrip())
        faults.add(number, _first(tree[0]).column, max(1, end - column), *_misfit(len(tree), bar))
        return ()
    leaves: list[Leaf] = []
    for item, length in zip(tree, lengths, strict=True):
        _spread(item, length, number, bar, faults, leaves)
    return _merge(leaves, number, bar, faults, sounding=sounding)


Tree = Token | list["Tree"]  # type: ignore[misc]  # recursive


def _tree(cell: str, column: int, number: int, faults: FaultList) -> list[Tree]:
    """The cell's tokens, each group a list."""
    top: list[Tree] = []
    stack = [top]
    for match in LEX.finditer(cell):
        at = column + match.start()
        if match["open"]:
            group: list[Tree] = []
            stack[-1].append(group)
            stack.append(group)
        elif match["close"]:
            if len(stack) == 1 or not stack[-1]:
                faults.add(
                    number, at, 1, "this ')' closes nothing", "Leave it out, or open the group with '('"
                )
                return []
            stack.pop()
        else:
            stack[-1].append(Token("word", match["word"], at))
    if len(stack) > 1:
        faults.add(number, column, len(cell), "a group is not closed", "End it with ')'")
        return []
    return top


def _first(item: Tree) -> Token:
    while isinstance(item, list):
        item = item[0]
    return item


def _lengths(tree: list[Tree], bar: BarDraft) -> list[Fraction] | None:
    beat = bar.metre.beat
    if len(tree) == 1 and isinstance(tree[0], Token) and tree[0].text in ("0", "-"):
        return [bar.length]
    beats = bar.pickup if bar.pickup is not None else Fraction(bar.metre.beats)
    whole, part = int(beats), beats - int(beats)
    lengths = ([part * beat] if part else []) + [beat] * whole
    return lengths if len(lengths) == len(tree) else None


def _misfit(found: int, bar: BarDraft) -> tuple[str, str]:
    beats = bar.pickup if bar.pickup is not None else bar.metre.beats
    what = f"{found} tokens of tune for {beats} beat{'' if beats == 1 else 's'}"
    return what, "Write one token a felt beat: '-' holds, '0' rests, ( ) divides a beat"


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


def read_finger_bars(text: str, start: int, number: int, bars: list[BarDraft], faults: FaultList) -> None:
    """Read one line of finger pins, token for token under the tune line above."""
    cells = split_cells(text, start)
    if len(cells) != len(bars):
        what = f"{len(cells)} bars of fingers for {len(bars)} bars of tune"
        faults.add(number, 1, len(text), what, "Write as many bars, '.' where a finger is free")
        return
    for (cell, column), bar in zip(cells, bars, strict=True):
        _pin_bar(cell, column, number, bar, faults)


def _pin_bar(cell: str, column: int, number: int, bar: BarDraft, faults: FaultList) -> None:
    leaves = [(m[0], column + m.start()) for m in re.finditer(r"[^\s()]+", cell)]
    if len(leaves) != len(bar.fingerable):
        what = f"{len(leaves)} fingers for {len(bar.fingerable)} tokens of tune"
        faults.add(number, column, len(cell), what, "Write one for each token, '.' where it is free")
        return
    notes = list(bar.tune or ())
    for (text, at), owner in zip(leaves, bar.fingerable, strict=True):
        pins = read_fingers(text)
        if pins is None or (pins and owner is None):
            what = f"'{text}' pins no finger here"
            faults.add(number, at, len(text), what, "Write string and finger, as in 'A2' or 'D0', or '.'")
        elif pins and owner is not None:
            note = notes[owner]
            notes[owner] = TuneNote(
                note.kind, note.length, note.pitches, note.slur, note.grace, note.slide, pins
            )
    bar.tune = tuple(notes)
