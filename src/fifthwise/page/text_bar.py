"""One bar as plain text: tokens for its slots, and where each begins in a cell of a given width."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from fifthwise.page.layout_bar import SheetBar, SheetSlot
from fifthwise.page.layout_tune import SheetNote

__all__ = ["MARKS", "TextBar", "text_bar"]

SHAPES = {"rest": "0", "nc": "NC", "hold": "-", "same": "%", "unread": "?"}
MARKS = {
    "push": "<",
    "push16": "<<",
    "late": ">",
    "stop": "▼",
    "accent": "^",
    "held": "◇",
}
MEANINGS = {
    "<": "an eighth early",
    "<<": "a sixteenth early",
    ">": "an eighth late",
    "▼": "struck short",
    "^": "accent",
    "◇": "let ring",
    "/": "one more beat",
    "( )": "notes that share one beat, each an equal part",
}


@dataclass(frozen=True, slots=True)
class Token:
    """What stands for one slot: the large text, the small one beneath, and its share of the bar."""

    large: str
    small: str
    at: Fraction


@dataclass(frozen=True, slots=True)
class TextBar:
    """A bar's tokens and its tune."""

    tokens: tuple[Token, ...]
    tune: str

    @property
    def width(self) -> int:
        """Places that the bar needs."""
        slots = sum(max(len(t.large), len(t.small)) + 1 for t in self.tokens)
        return max(slots, len(self.tune) + 1)

    def rows(self, width: int) -> tuple[str, str, str]:
        """Numbers, letters and tune, each ``width`` places long; tokens stand by their beats."""
        large, small = "", ""
        left = self.width if not self.tokens else sum(_room(t) for t in self.tokens)
        for token in self.tokens:
            left -= _room(token)
            start = max(len(large), len(small))
            fair = min(int(token.at * width), width - left - _room(token))
            at = max(start, fair)
            large, small = large.ljust(at) + token.large, small.ljust(at) + token.small
            gap = max(len(large), len(small)) + 1
            large, small = large.ljust(gap), small.ljust(gap)
        return large.ljust(width), small.ljust(width), self.tune.ljust(width)


def _room(token: Token) -> int:
    return max(len(token.large), len(token.small)) + 1


def text_bar(bar: SheetBar) -> TextBar:
    """Write a bar's slots; in an uneven bar each further beat is a stroke, as in the chart text."""
    tokens = []
    for slot in bar.slots:
        at = slot.at / bar.length if bar.length else Fraction(0)
        tokens.append(Token(slot_text(slot), slot.small.text if slot.small else "", at))
        tokens += _strokes(slot, bar) if bar.uneven else []
    return TextBar(tuple(tokens), " ".join(_tune(bar)))


def slot_text(slot: SheetSlot) -> str:
    """A slot with its marks before it."""
    on = {
        "push": slot.push and not slot.sixteenth,
        "push16": slot.push and slot.sixteenth,
        "late": slot.late,
        "stop": slot.stop,
        "accent": slot.accent,
        "held": slot.held,
    }
    marks = "".join(sign for name, sign in MARKS.items() if on[name])
    return marks + (slot.main.text if slot.shape == "chord" and slot.main else SHAPES.get(slot.shape, ""))


def _strokes(slot: SheetSlot, bar: SheetBar) -> list[Token]:
    beat = slot.length / slot.beats if slot.beats else slot.length
    whole = int(slot.beats)
    return [Token("/", "", (slot.at + beat * place) / bar.length) for place in range(1, whole)]


def _tune(bar: SheetBar) -> Iterator[str]:
    """The tune as the chart text writes it: a token a beat, a divided beat in brackets."""
    beat = bar.length / bar.beats
    for _, group in groupby(bar.tune, key=lambda note: note.beat):
        notes = list(group)
        texts = [_note_text(note) for note in notes]
        if len(notes) > 1:
            yield f"({' '.join(texts)})"
        else:
            yield texts[0]
        further = int(notes[-1].length / beat) - (0 if notes[-1].divided else 1)
        yield from ["0" if notes[-1].shape == "rest" else "-"] * further


def _note_text(note: SheetNote) -> str:
    shape = {"rest": "0", "hold": "-", "dash": "-", "chop": "x"}.get(note.shape, "")
    grace = "{" + "".join(figure.text for figure in note.grace) + "}" if note.grace else ""
    slide = {"up": "/", "down": "\\"}.get(note.slide, "")
    figures = "&".join(figure.text for figure in note.figures)
    return f"{grace}{slide}{figures or shape}{'_' if note.slur else ''}"
