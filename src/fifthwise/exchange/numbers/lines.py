"""A line of a number sheet parted into bars, as its convention has them."""

from collections.abc import Sequence

from fifthwise.exchange.letter_tokens import BODY, Token
from fifthwise.exchange.numbers.convention import SPACED, Convention
from fifthwise.exchange.numbers.items import Item, line_items
from fifthwise.exchange.numbers.words import read_unit, split_word
from fifthwise.theory import Metre, TheoryError, read_metre

__all__ = ["part_line"]

# Items that stand beside the chords and begin no bar.
BESIDE = {
    "cue": "cue",
    "times": "times",
    "metre": "metre",
    "ending": "ending",
    "mark": "mark",
    "jump": "jump",
}
BEFORE = ("segno", "𝄋", "𝄌")  # jumps that stand before their bar
DASHES = "-–—"
LOOK_AHEAD = 16  # items in which what is opened must be closed


def part_line(
    text: str, column: int, convention: Convention, metre: Metre, spans: Sequence[tuple[int, int]] = ()
) -> list[Token]:
    """Part a line into tokens as ``split_bars`` gives them, with a bar line wherever a bar ends.

    Parameters
    ----------
    column : int
        That of the line's first character.
    metre : Metre
        What holds here; chords with beats fill its bars.
    spans : sequence of (int, int)
        Columns, from 1, of the lines drawn under chords of one bar.
    """
    parting = _Parting(convention, metre, column, spans)
    items = line_items(text)
    place = 0
    while place < len(items):
        place = parting.take(text, items, place)
    return parting.out


class _Parting:
    """The tokens found so far, and whether the bar that they stand in is full."""

    def __init__(
        self, convention: Convention, metre: Metre, column: int, spans: Sequence[tuple[int, int]]
    ) -> None:
        self.convention, self.column, self.spans = convention, column, spans
        self.beats = self.whole = metre.beats
        self.out: list[Token] = []
        self.full = False  # the next chord begins another bar
        self.filled = 0  # beats of the bar, where its chords say theirs
        self.group = ""  # the bracket or underline in which chords share a bar
        self.spaced = convention.bars in SPACED

    def take(self, text: str, items: list[Item], place: int) -> int:
        """Take one item, with those round it; gives the place of the next."""
        item = items[place]
        shut = _shuts(items, place)
        if not self.spaced and item.text == "(" and shut and not self._is_alone(items, shut):
            self._body("group", text[item.start : items[shut].end], item.start)
            return shut + 1
        self._take(item, items, place)
        return place + 1

    def _is_alone(self, items: list[Item], shut: int) -> bool:
        """Whether nothing else stands in the bar of a bracket."""
        begins = not self.out or self.out[-1].kind not in BODY or self.full
        after = items[shut + 1].kind if shut + 1 < len(items) else "bar"
        dash = after == "sign" and items[shut + 1].text[0] in DASHES and self.convention.bars == "dashes"
        comma = after == "comma" and self.convention.bars == "commas"
        return begins and (after in ("bar", "times", "cue", "jump") or dash or comma)

    def _take(self, item: Item, items: list[Item], place: int) -> None:
        if item.kind == "bar":
            self._add("bar", item.text, item.start)
            self._begin()
        elif item.kind in BESIDE:
            self._beside(item)
        elif item.kind == "comma":
            self._comma(item, items, place)
        elif item.kind in ("opens", "shuts"):
            self._bracket(item, items, place)
        elif item.kind == "sign":
            self._sign(item, items, place)
        elif item.kind == "word":
            self._word(item, items, place)
        else:
            self._body({"rest": "word"}.get(item.kind, item.kind), item.text, item.start)
            self.full = self.spaced and not self.group

    def _add(self, kind: str, text: str, start: int) -> None:
        self.out.append(Token(kind, text, start + self.column))

    def _begin(self) -> None:
        self.full, self.filled, self.beats = False, 0, self.whole

    def _body(self, kind: str, text: str, start: int) -> None:
        """Add what fills a bar."""
        self._end_bar(start)
        self._add(kind, text, start)

    def _end_bar(self, start: int) -> None:
        if self.full:
            self._add("bar", "|", start)
            self._begin()

    def _beside(self, item: Item) -> None:
        if item.kind == "metre":
            self._end_bar(item.start)
            self.beats = _beats_of(item.text) or self.whole
        elif item.kind in ("ending", "mark") or item.text.lower() in BEFORE:
            self._end_bar(item.start)
        self._add(BESIDE[item.kind], item.text, item.start)

    def _comma(self, item: Item, items: list[Item], place: int) -> None:
        """A comma ends a bar, or joins what it touches on both sides."""
        touches = item.glued and place + 1 < len(items) and items[place + 1].glued
        if self.convention.bars == "commas":
            self.full = bool(self.out)
        elif self.spaced and touches:
            self.full = False

    def _bracket(self, item: Item, items: list[Item], place: int) -> None:
        if item.kind == "opens" and not self.group and _shuts(items, place):
            self.group = "group"
            if self.spaced:
                self._end_bar(item.start)
        elif item.kind == "shuts" and self.group == "group":
            self.group = ""
            self.full = self.spaced
        else:
            self._add("stray", item.text, item.start)

    def _sign(self, item: Item, items: list[Item], place: int) -> None:
        """A dash between bars, or beats; an underline that stands alone says nothing."""
        sign = item.text
        touches = item.glued and place + 1 < len(items) and items[place + 1].glued
        if sign[0] == "_" or (sign == "/" and touches and self.convention.slash == "split"):
            self.full = self.full and not touches
            return
        if self.convention.bars in ("dashes", "hyphens") and sign[0] in DASHES:
            self.full = bool(self.out) and self.out[-1].kind != "bar"
        elif self.spaced and self.convention.beat_sign == "bar" and sign[0] not in DASHES:
            self.full = bool(self.out) and self.out[-1].kind != "bar"
            self._body("same", sign, item.start)
            self.full = True
        else:
            self._beats(item)

    def _beats(self, item: Item) -> None:
        self._body("beats", item.text, item.start)
        self._fill(len(item.text))

    def _fill(self, beats: int) -> None:
        """Count beats; a bar that has all of its beats is full."""
        self.filled += beats
        self.full = self.spaced and not self.group and self.filled >= self.beats

    def _word(self, item: Item, items: list[Item], place: int) -> None:
        word, offset = item.text, item.start
        if word[0] == "_" and len(word) > 1 and not self.group and _closes_later(items, place):
            self._end_bar(offset)
            self.group = "underline"
        for joined in split_word(word, self.convention):
            if joined.same_bar:
                self.full = False
            self._chord(joined.text, offset + joined.offset, items, place)
        if word[-1] == "_" and self.group == "underline":
            self.group, self.full = "", self.spaced
        if self._shares_line(item, items, place):
            self.full = False

    def _chord(self, text: str, start: int, items: list[Item], place: int) -> None:
        dots = read_unit(text, self.convention).dots
        self._body("word", text, start)
        after = items[place + 1] if place + 1 < len(items) else None
        between = "_" + (DASHES if self.convention.bars in ("dashes", "hyphens") else "")
        more = after is not None and after.kind == "sign" and after.text[0] not in between
        glued = more and after is not None and after.glued and self.convention.slash == "split"
        beats_follow = more and not glued and self.convention.beat_sign == "beat"
        if dots or beats_follow or self.filled:
            self._fill(dots + (self.convention.dots == "more") if dots else 1)
        else:
            self.full = self.spaced and not self.group

    def _shares_line(self, item: Item, items: list[Item], place: int) -> bool:
        """Whether one line is drawn under this word and the next."""
        near = items[place + 1 : place + LOOK_AHEAD]
        after = next((later for later in near if later.kind in ("word", "bar")), None)
        if after is None or after.kind == "bar":
            return False
        return any(
            low < item.end + self.column and item.start + self.column <= high
            and low < after.end + self.column and after.start + self.column <= high
            for low, high in self.spans
        )  # fmt: skip


def _beats_of(text: str) -> int | None:
    try:
        return read_metre(" ".join(text[1:-1].split())).beats
    except TheoryError:
        return None


def _shuts(items: list[Item], place: int) -> int:
    """The place where the bracket that opens here is closed before the bar ends; 0 where it is not."""
    if items[place].kind != "opens":
        return 0
    for later in range(place + 1, min(len(items), place + LOOK_AHEAD)):
        if items[later].kind in ("bar", "opens"):
            return 0
        if items[later].kind == "shuts":
            return later
    return 0


def _closes_later(items: list[Item], place: int) -> bool:
    """Whether an underline that begins here ends before the bar does."""
    for item in items[place : place + LOOK_AHEAD]:
        if item.kind == "bar":
            return False
        if item.kind in ("word", "sign") and item.text.endswith("_"):
            return True
    return False
