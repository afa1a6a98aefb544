"""The convention of a number sheet guessed from its lines: what is open, and what follows from it."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Any

from fifthwise.exchange.numbers.chords import counting_of, read_typed
from fifthwise.exchange.numbers.convention import DIMENSIONS, SPACED, Convention
from fifthwise.exchange.numbers.evidence import is_strange_bass, score, typed_bars
from fifthwise.exchange.numbers.items import line_items, numbers_in
from fifthwise.exchange.numbers.sheet import MusicLine
from fifthwise.theory import ChordFault, Key, Numbering, to_letters, write_letters

__all__ = ["Choice", "Guess", "OpenPoint", "guess_convention"]

MOST_LINES = 200  # from which the evidence is taken
SURE = 4.0  # by so much one reading must beat the next
PRIOR = {"strokes": 4.0, "dashes": 4.0, "commas": 4.0, "key": 1.0, "all": 3.0}
# The signs that stand between bars and nowhere else; a comma that touches both sides joins chords instead.
STATED = {"strokes": r"(?<![|:])\|(?![|:])", "dashes": r"\s[-–—]+(?:\s|\Z)", "commas": r"[,;](?:\s|\Z)"}
RUN = re.compile(r"(?<!\d)(?![1-7]1[13](?!\d))[1-7]{3}")  # 113 is a chord, 115 is not
QUESTIONS = {
    "bars": "Where does a bar end?",
    "plain": "What is a number without a sign?",
    "slash": "What does a slash say?",
    "beat_sign": "What is a '/' or '.' alone?",
    "dots": "What do the dots count?",
    "hat": "What does '5^7' say?",
    "caret": "What does '^' say?",
    "greater": "What does '>' say?",
    "bang": "What does '!' say?",
    "minor": "How is the minor key counted?",
}
WORDS = {
    "strokes": "at each |",
    "spaces": "at each blank",
    "dashes": "at each ' - '",
    "hyphens": "at each hyphen",
    "commas": "at each comma",
    "digits": "after each number",
    "lines": "at the end of each line",
    "major": "major, as written",
    "scale": "as in the scale: 2 3 6 minor",
    "key": "a bass, counted in the key",
    "chord": "a bass, counted from the chord",
    "split": "two chords in one bar",
    "beat": "one more beat",
    "bar": "the bar again",
    "all": "all beats of the chord",
    "more": "beats more than one",
    "seven": "a seventh",
    "major-seven": "a major seventh",
    "push": "an eighth early",
    "stop": "struck short",
    "accent": "an accent",
    "late": "an eighth late",
    "from-six": "home is 6-",
    "from-one": "home is 1-, with b3 b6 b7",
    "natural": "home is 1-, where 3 6 7 are low",
}
GLUED_DOTS = re.compile(r"[1-7\w)][.'’·•]+(?![a-z])")
MINOR = r"(?:-|mi?n?(?!aj|a\d|in))"
MARKED_MINOR = re.compile(rf"[236]{MINOR}(?!\(?maj)")
MARKED_SEVENTH = re.compile(rf"[236]{MINOR}(?:7|9|11|13)")
MARKED_MAJOR = re.compile(r"[236](?:M|[Mm]aj|dom|\(maj|Δ|\^(?!7))(?!7)|[236]dom")
PLAIN = re.compile(r"[236](?:\Z|/|[679]|1[13]|\^7|\()")


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer to an open point: its value, its words, and what follows from it here."""

    value: str
    words: str
    consequence: str


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """A choice that bears on this sheet.

    Attributes
    ----------
    name : str
        The field of the convention.
    chosen : str
        The value that was taken.
    sure : bool
        Whether hardly anything speaks for another.
    margin : float
        By how much the choice beats the next; nothing where no evidence bears on it.
    """

    name: str
    text: str
    options: tuple[Choice, ...]
    chosen: str
    sure: bool
    margin: float = 0.0


@dataclass(frozen=True, slots=True)
class Guess:
    """The convention that was taken, and the points in which another may be meant."""

    convention: Convention
    points: tuple[OpenPoint, ...]

    @property
    def doubtful(self) -> bool:
        """Whether any point may as well be otherwise."""
        return any(not point.sure for point in self.points)


def guess_convention(lines: Sequence[MusicLine], wishes: Mapping[str, str], key: Key) -> Guess:
    """Find the convention in which lines of bars read best; what is wished for is settled."""
    lines = lines[:MOST_LINES]
    live = _live(lines, key) | {name: (value,) for name, value in wishes.items()}
    # First where the bars are, which shows the chords; then what a plain one means; then the rest by both.
    parted, _ = _best(lines, {"plain": ("major",)} | live)
    plain, said = _plain(_chords(lines, parted))
    live = {"plain": (plain,)} | live
    convention, margins = _best(lines, live)
    points = [_point(name, convention, live[name], margins[name], lines) for name in live if name != "plain"]
    unsure = _unsure(lines, convention, live["bars"])
    points = [replace(point, sure=False) if point.name in unsure else point for point in points]
    if "plain" not in wishes and any(map(PLAIN.match, _chords(lines, convention))):
        points.append(_point("plain", convention, DIMENSIONS["plain"], SURE if said else 0.0, lines))
    points += [
        _point(name, convention, DIMENSIONS[name], 0.0, lines) for name in _signs(lines) if name not in wishes
    ]
    return Guess(
        convention, tuple(point for point in points if len({c.consequence for c in point.options}) > 1)
    )


def _unsure(lines: Sequence[MusicLine], convention: Convention, bars: tuple[str, ...]) -> set[str]:
    """The choices that stay open however much speaks for them."""
    chords = _chords(lines, convention)
    found = {"bars"} if len(bars) > 1 and bars[0] in STATED else set()
    if convention.bars in SPACED and convention.slash != "split" and not _bars_are_parted(lines, convention):
        found.add("slash")
    if convention.bars == "digits" and "hyphens" in bars:
        found.add("bars")
    # So many slashes may part bars, however well a bass would fit.
    if convention.slash != "split" and sum("/" in chord for chord in chords) * 4 > len(chords):
        found.add("slash")
    if convention.slash != "split" and not _bass_is_said(set(chords), convention, lines[0].key):
        found.add("slash")
    if not any(re.search(r"[.'’·•]{2}", line.text) for line in lines):
        found.add("dots")
    high = [chord for chord in chords if "^" in chord]
    if convention.hat == "seven":
        said = any(chord.startswith(("5^", "2-^", "3-^", "6-^", "2m^", "6m^", "3m^")) for chord in high)
    else:
        said = any(chord.startswith(("57", "2-7", "6-7", "2m7", "6m7")) for chord in chords)
    return found if said or not high else found | {"hat"}


def _bars_are_parted(lines: Sequence[MusicLine], convention: Convention) -> bool:
    """Whether another sign parts bars, or a slash leads to a 7, which is hardly ever a chord by itself."""
    bars = [bar for line in lines for bar in typed_bars(line, convention)]
    return any(len(bar.chords) > 1 or any(chord.endswith("/7") for chord in bar.chords) for bar in bars)


def _bass_is_said(chords: set[str], convention: Convention, key: Key) -> bool:
    """Whether chords tell how their basses count: one that makes no sense otherwise, two where it is rare."""
    other = replace(convention, slash="chord" if convention.slash == "key" else "key")
    counting = counting_of(other, key)
    strange = sum("/" in chord and is_strange_bass(chord, counting) for chord in chords)
    return strange >= (1 if convention.slash == "key" else 2)


def _best(
    lines: Sequence[MusicLine], live: Mapping[str, tuple[str, ...]]
) -> tuple[Convention, dict[str, float]]:
    """The convention that reads best, and by how much each of its choices beats the next."""
    names = list(live)
    scores = {
        values: score(lines, _convention(names, values)) + sum(PRIOR.get(value, 0.0) for value in values)
        for values in product(*live.values())
    }
    best = max(scores, key=lambda values: scores[values])
    margins = {}
    for place, name in enumerate(names):
        others = [found for values, found in scores.items() if values[place] != best[place]]
        margins[name] = scores[best] - max(others) if others else 0.0
    return _convention(names, best), margins


def _chords(lines: Sequence[MusicLine], convention: Convention) -> list[str]:
    return [chord for line in lines for bar in typed_bars(line, convention) for chord in bar.chords]


def _convention(names: list[str], values: tuple[str, ...]) -> Convention:
    chosen: dict[str, Any] = dict(zip(names, values, strict=True))
    return Convention(**chosen)


def _live(lines: Sequence[MusicLine], key: Key) -> dict[str, tuple[str, ...]]:
    """The choices that the signs of the sheet leave open; bars and slash always have one."""
    items = [item for line in lines for item in line_items(line.text)]
    signs = {item.text[0] for item in items if item.kind == "sign"}
    words = " ".join(numbers_in(items))
    live = {"bars": _bars(lines, words)}
    slashed = re.search(r"/[b#♭♯]?[1-7]", words)
    live["slash"] = DIMENSIONS["slash"] if slashed else ("key",)
    if signs & set("/."):
        live["beat_sign"] = DIMENSIONS["beat_sign"]
    if GLUED_DOTS.search(words):
        live["dots"] = DIMENSIONS["dots"]
    if re.search(r"\^\d", words):
        live["hat"] = DIMENSIONS["hat"]
    if key.is_minor:
        live["minor"] = (_minor(words),)
    return live


def _bars(lines: Sequence[MusicLine], words: str) -> tuple[str, ...]:
    """What may end a bar; a sign that stands between bars is taken, unless it parts whole phrases."""
    whole = "\n".join(line.text for line in lines)
    for name, sign in STATED.items():
        if re.search(sign, whole):
            return (name, "spaces") if _crowded(lines, sign) else (name,)
    found = ["spaces"]
    if re.search(r"[1-7][a-z]{0,3}[-–](?:[1-5]|[b#♭♯])", words):
        found.append("hyphens")
    if RUN.search(words):
        found.append("digits")
    return tuple(found)


def _crowded(lines: Sequence[MusicLine], sign: str) -> bool:
    """Whether most of what stands between signs is three chords or more, so that they may part phrases."""
    cells = [len(numbers_in(line_items(cell))) for line in lines for cell in re.split(sign, line.text)]
    filled = [count for count in cells if count]
    return sum(count > 2 for count in filled) * 2 > len(filled)


def _minor(words: str) -> str:
    """How a minor key is counted: from its 6, or from its 1 with or without flats."""
    chords = words.split()
    ones = sum(bool(re.match(r"1(?:-|m(?!aj))", word)) for word in chords)
    sixes = sum(bool(re.match(r"6", word)) for word in chords)
    if ones <= sixes / 2 or not ones:
        return "from-six"
    return "from-one" if re.search(r"[b♭][367]", words) else "natural"


def _plain(chords: list[str]) -> tuple[str, bool]:
    """What a plain number means, and whether the sheet says so itself, by the signs on its 2 3 6."""
    if any(map(MARKED_MAJOR.match, chords)):
        return "scale", not any(map(MARKED_MINOR.match, chords))
    marked = [chord for chord in chords if MARKED_MINOR.match(chord)]
    if marked:
        return "major", not all(map(MARKED_SEVENTH.match, marked))
    return ("scale" if any(map(PLAIN.match, chords)) else "major"), False


def _signs(lines: Sequence[MusicLine]) -> list[str]:
    """The signs on which no evidence bears."""
    words = " ".join(word for line in lines for word in numbers_in(line_items(line.text)))
    found = {
        "caret": re.search(r"\^(?!\d)|(?:\s|\A)\^", words),
        "greater": re.search(r">", re.sub(r"<[^<>\s]{1,20}>", "", words)),
        "bang": re.search("!", words),
    }
    return [name for name, match in found.items() if match]


def _point(
    name: str, convention: Convention, values: tuple[str, ...], margin: float, lines: Sequence[MusicLine]
) -> OpenPoint:
    changes: list[Any] = [{name: value} for value in values]
    made = [replace(convention, **change) for change in changes]
    words = _consequences(name, made, lines)
    options = tuple(Choice(value, WORDS[value], said) for value, said in zip(values, words, strict=True))
    chosen = getattr(convention, name)
    return OpenPoint(name, QUESTIONS[name], options, chosen, margin >= SURE or len(values) == 1, margin)


def _consequences(name: str, made: list[Convention], lines: Sequence[MusicLine]) -> list[str]:
    """What follows from each option: of the first chord that differs, or of all bars."""
    if name in ("caret", "greater", "bang"):
        return [WORDS[getattr(each, name)] for each in made]
    for line in lines:
        for word in dict.fromkeys(
            chord for bar in typed_bars(line, replace(made[0], slash="key")) for chord in bar.chords
        ):
            said = [_sounding(word, each, line.key) for each in made]
            if len(set(said)) > 1 and all(said):
                return [f"{word} is {each}" for each in said]
    return [_bar_count(each, lines) for each in made]


def _sounding(word: str, convention: Convention, key: Key) -> str:
    if convention.slash == "split" and "/" in word:
        parts = [_sounding(part, replace(convention, slash="key"), key) for part in word.split("/")]
        return " and ".join(parts) if all(parts) else ""
    try:
        chord = read_typed(word, counting_of(convention, key))
    except ChordFault:
        return ""
    return write_letters(to_letters(chord, Numbering(convention.minor).one(key)))


def _bar_count(convention: Convention, lines: Sequence[MusicLine]) -> str:
    bars = [bar for line in lines for bar in typed_bars(line, convention)]
    most = max((len(bar.chords) for bar in bars), default=0)
    wrong = sum(not bar.filled for bar in bars)
    rest = f", {wrong} that do not add up" if wrong else ""
    return f"{len(bars)} bars of {most if most < 2 else f'1 to {most}'} chords{rest}"
