"""Bars said in words, for those who hear the page: ``Bar 3: 6 minor, G minor, held``."""

import re
from collections.abc import Iterator
from functools import lru_cache

from fifthwise.page.layout_bar import Figure, SheetBar, SheetSlot

__all__ = ["bar_words", "figure_words"]

SPOKEN = {
    "♭": " flat ", "♯": " sharp ", "𝄫": " double flat ", "𝄪": " double sharp ", "♮": " natural ",
    "–": " minor ", "°": " diminished ", "ø": " half-diminished ", "+": " augmented ", "△": " major ",
    "sus": " suspended ", "add": " add ", "no": " without ", "(": " ", ")": " ",
}  # fmt: skip
SIGN = re.compile("|".join(map(re.escape, SPOKEN)))
SHAPES = {
    "rest": "rest",
    "nc": "no chord",
    "hold": "goes on",
    "same": "as the bar before",
    "unread": "unread",
}
LINES = {"repeat": "repeat", "double": "double bar line", "final": "end"}
SIGNS = {"segno": "segno", "coda": "coda"}


@lru_cache(maxsize=4096)  # a song has few different chords
def figure_words(figure: Figure) -> str:
    """Say a chord: ``flat 7``, ``G minor 7``, ``5 over 7``."""
    after = figure.after.replace("m", "–") if figure.root[:1].isupper() else figure.after
    bass = f" over {_spoken(figure.bass)}" if figure.bass else ""
    words = f"{_spoken(figure.sign)} {figure.root} {_spoken(after)} {_spoken(figure.raised)}{bass}"
    return " ".join(words.split())


def _spoken(text: str) -> str:
    return SIGN.sub(lambda match: SPOKEN[match[0]], text)


def bar_words(bar: SheetBar) -> str:
    """Say all that stands in a bar, from its beginning to its end."""
    name = "Pickup" if bar.column < 0 else f"Bar {bar.bar + 1}"
    return f"{name}: {'; '.join(part for part in _parts(bar) if part)}"


def _parts(bar: SheetBar) -> Iterator[str]:
    yield from (SIGNS.get(sign, sign) for sign in bar.signs)
    if bar.left == "repeat":
        yield "repeat begins"
    yield bar.metre and f"metre {bar.metre.strip('()')}{', this bar only' * bar.metre.startswith('(')}"
    yield from bar.changes
    yield from (f"{cue.player}: {cue.text}" if cue.player else cue.text for cue in bar.cues)
    for slot in bar.slots:
        yield _slot_words(slot, alone=len(bar.slots) == 1)
    if bar.right != "bar":
        yield "repeat ends" if bar.right == "repeat" else LINES[bar.right]
    yield bar.times
    yield from bar.goes


def _slot_words(slot: SheetSlot, *, alone: bool) -> str:
    told = [figure_words(figure) for figure in (slot.main, slot.small) if figure]
    if slot.shape != "chord" or not told:
        told = [SHAPES.get(slot.shape, slot.shape)]
    if not alone:
        told.append(f"{float(slot.beats):g} {'beat' if slot.beats == 1 else 'beats'}")
    early = "a sixteenth early" if slot.sixteenth else "an eighth early"
    marks = ((slot.push, f"pushed {early}"), (slot.late, "an eighth late"), (slot.stop, "stopped"))
    more = ((slot.accent, "accented"), (slot.held, "held"), (slot.tied, "tied on"))
    return ", ".join((*told, *(words for on, words in (*marks, *more) if on)))
