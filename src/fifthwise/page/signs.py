"""The key to the signs: what each means in plain words, and which of them a page uses."""

from collections.abc import Iterator, Sequence

from fifthwise.page.layout_bar import Figure, SheetBar, SheetSlot
from fifthwise.page.layout_model import LegendItem, SheetSection, StripLine
from fifthwise.page.layout_tune import SheetNote, TuneFigure
from fifthwise.page.layout_view import Show

__all__ = ["SIGNS", "legend", "used_signs"]

# In the order in which a page lists them. Each name is drawn by print and screen in its own way.
SIGNS = {
    "plain": "plain number: major chord on that step of the key",
    "capital": "capitals: major chord on that step of the key",
    "small-numeral": "small letters: minor chord",
    "minor": "minor chord",
    "flat": "half a step lower",
    "sharp": "half a step higher",
    "bass": "after the stroke: the bass note",
    "raised": "small and high: notes added to the chord",
    "major-seventh": "major seventh",
    "sus": "4 (sus2: 2) in place of the third",
    "diminished": "diminished",
    "half-diminished": "half-diminished",
    "augmented": "raised fifth",
    "power": "root and fifth, no third",
    "held": "strike once and let ring",
    "tie": "rings on over the bar line",
    "goes-on": "the chord before goes on",
    "stop": "strike short, then silence",
    "accent": "accent",
    "push": "comes an eighth early",
    "push16": "comes a sixteenth early",
    "late": "comes an eighth late",
    "rest": "the band rests",
    "nc": "no chord, the tune goes on",
    "same": "play the bar before again",
    "ticks": "beats that each chord lasts",
    "short-tick": "half a beat or less",
    "metre-once": "this bar only",
    "pickup": "before the first bar line: a pickup",
    "repeat": "play what is between again",
    "times": "how many times in all",
    "vamp": "repeat until the cue",
    "ending": "play the ending with this pass’s number",
    "segno": "D.S. goes back to here",
    "dc": "back to the top",
    "jump": "repeats are not taken again: straight to the last ending",
    "to-coda": "after the jump go from here …",
    "coda": "… to here",
    "fine": "after the jump end here",
    "unread": "this bar could not be read",
    "octave": "dot: an octave up (above) or down (below)",
    "line": "line under notes: they share one beat, each an equal part",
    "dash": "over that line: the note before lasts one part more",
    "lasts": "the note lasts",
    "double": "both notes together",
    "slur": "one bow",
    "grace": "small: a quick note before",
    "slide": "slide into the note",
    "chop": "chop",
    "tune-rest": "the tune rests",
    "joined": "the same finger",
    "apart": "another finger",
}


def legend(
    sections: Sequence[SheetSection], show: Show, strip: Sequence[StripLine] = ()
) -> tuple[LegendItem, ...]:
    """The key to the signs that these sections and this strip use, in the order of ``SIGNS``."""
    used = used_signs(sections, show) | set(_anchor_signs(strip))
    return tuple(LegendItem(sign, words) for sign, words in SIGNS.items() if sign in used)


def _anchor_signs(strip: Sequence[StripLine]) -> Iterator[str]:
    for line in strip:
        if line.anchors is not None:
            yield from ("joined" if mark.joined else "apart" for mark in line.anchors.marks)


def used_signs(sections: Sequence[SheetSection], show: Show) -> frozenset[str]:
    """The names of the signs that these sections use."""
    found: set[str] = set()
    for section in sections:
        for row in section.rows:
            if row.pickup is not None:
                found |= {"pickup", *_bar_signs(row.pickup, show)}
            if any(bracket.label for bracket in row.brackets):
                found.add("ending")
            for bar in row.bars:
                found.update(_bar_signs(bar, show))
    if {"jump", "repeat"} <= found:
        return frozenset(found)
    return frozenset(found - {"jump"})  # no repeat that could be taken again


def _bar_signs(bar: SheetBar, show: Show) -> Iterator[str]:
    if bar.metre.startswith("("):
        yield "metre-once"
    if "repeat" in (bar.left, bar.right):
        yield "repeat"
    if bar.times:
        yield "vamp" if bar.times.startswith("vamp") else "times"
    if bar.uneven:
        yield "ticks"
        if any(slot.beats.denominator > 1 for slot in bar.slots):
            yield "short-tick"
    yield from bar.signs
    yield from _jump_signs(bar.goes)
    for slot in bar.slots:
        yield from _slot_signs(slot, show)
    for note in bar.tune:
        yield from _note_signs(note)


def _jump_signs(goes: Sequence[str]) -> Iterator[str]:
    for words in goes:
        if words.startswith(("D.C.", "D.S.")):
            yield "jump"
        if words.startswith("D.C."):
            yield "dc"
        elif words in ("To Coda", "Fine"):
            yield "to-coda" if words == "To Coda" else "fine"


def _slot_signs(slot: SheetSlot, show: Show) -> Iterator[str]:
    if slot.shape == "hold":
        yield "tie" if slot.tie_from else "goes-on"
    elif slot.shape != "chord":
        yield slot.shape
    marks = {
        "held": slot.held, "stop": slot.stop, "accent": slot.accent, "late": slot.late,
        "push": slot.push and not slot.sixteenth, "push16": slot.sixteenth,
    }  # fmt: skip
    yield from (name for name, on in marks.items() if on)
    if slot.main is not None:
        yield from _number_signs(slot.main, show)
        yield from _quality_signs(slot.main)


def _number_signs(figure: Figure, show: Show) -> Iterator[str]:
    """Signs that only numbers have: a reader of letters knows their accidentals."""
    if show == "letters":
        return
    if figure.root.isdigit() and not figure.after and not figure.raised:
        yield "plain"
    if show == "roman":
        yield "capital" if figure.root.isupper() else "small-numeral"
    accidentals = figure.sign + figure.bass
    if "♭" in accidentals or "𝄫" in accidentals:
        yield "flat"
    if "♯" in accidentals or "𝄪" in accidentals:
        yield "sharp"


def _quality_signs(figure: Figure) -> Iterator[str]:
    raised = figure.raised
    if figure.after == "–":
        yield "minor"
    if figure.bass:
        yield "bass"
    if raised == "(5)" or figure.after.endswith("5"):
        yield "power"
        return
    for sign, name in (("△", "major-seventh"), ("sus", "sus"), ("°", "diminished"), ("ø", "half-diminished")):
        if sign in raised:
            yield name
    if raised.startswith("+"):
        yield "augmented"
    if any(c.isdigit() for c in raised.replace("sus2", "").replace("△7", "")):
        yield "raised"


def _note_signs(note: SheetNote) -> Iterator[str]:
    yield from (name for name, on in _note_marks(note) if on)


def _note_marks(note: SheetNote) -> Iterator[tuple[str, bool]]:
    figures: tuple[TuneFigure, ...] = (*note.figures, *note.grace)
    yield "octave", any(figure.octave for figure in figures)
    yield "line", note.divided > 0
    yield "lasts", note.shape == "hold" or (note.shape in ("note", "dash") and note.lasts)
    yield "dash", note.shape == "dash"
    yield "double", len(note.figures) > 1
    yield "slur", note.slur
    yield "grace", bool(note.grace)
    yield "slide", bool(note.slide)
    yield "chop", note.shape == "chop"
    yield "tune-rest", note.shape == "rest"
