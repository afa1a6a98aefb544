"""Roman numerals as analyses write them, read as numbers: ``ii65``, ``viio6``, ``V4/3/V``, ``bVII``, ``It6``.

They differ from the numerals of a chart text in three ways. A seventh is the scale's (``I7`` is a major
seventh), unless it says more (``Id7``). In minor, 3 6 and 7 are the scale's where the chord is major (``VI``,
``VII``) and raised where it is minor or diminished (``viio``), and an accidental counts from the major scale,
as in a number. An applied chord stands in the key that it is applied to, minor where that numeral is small.
"""

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from fifthwise.theory.chord import LOWEST, NumberChord, recount
from fifthwise.theory.degree import Degree, degree_from
from fifthwise.theory.errors import ChordFault
from fifthwise.theory.key import Key
from fifthwise.theory.numbering import Numbering
from fifthwise.theory.quality import Quality, make_quality
from fifthwise.theory.read_chord import read_number_chord
from fifthwise.theory.signs import plain_signs

__all__ = ["SEVENTHS", "Sevenths", "read_roman"]

Sevenths = Literal["scale", "minor"]
SEVENTHS: tuple[Sevenths, ...] = ("scale", "minor")
NUMERAL = r"(?:VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)"
CHORD = re.compile(
    rf"(?P<sign>bb|##|b|#)?(?P<numeral>{NUMERAL})(?P<triad>/o|ø|o|h|x|\+|a(?!dd|ug))?(?P<dominant>d)?"
    r"(?P<figures>6/5|65|6/4|64|4/3|43|4/2|42|7|6|2)?(?P<added>(?:\[[^\[\]]{1,8}\]){0,3})"
    rf"(?P<of>(?:/[b#]?{NUMERAL}){{0,3}})\Z"
)
START = re.compile(rf"(?P<sign>bb|##|b|#)?(?P<numeral>{NUMERAL})")
APPLIED = re.compile(rf"(.+?)((?:/[b#]?{NUMERAL}){{1,3}})\Z")
SIXTHS = {
    "It6": ("7", ("no5",)), "It": ("7", ("no5",)), "It53": ("7", ("no5",)),
    "Ger65": ("7", ()), "Ger6/5": ("7", ()), "Ger6": ("7", ()), "Ger": ("7", ()), "Ger7": ("7", ()),
    "Fr43": ("7", ("b5",)), "Fr4/3": ("7", ("b5",)), "Fr6": ("7", ("b5",)), "Fr": ("7", ("b5",)),
}  # fmt: skip
NAMES = {"N6": "bII6", "N": "bII", "Cad64": "I64", "Cad6/4": "I64"}
TRIADS = {"/o": "ø", "ø": "ø", "h": "ø", "o": "o", "x": "o", "+": "+", "a": "+"}
INVERSIONS = {"6": 1, "64": 2, "65": 1, "43": 2, "42": 3, "2": 3}
OF_SEVENTH = frozenset({"7", "65", "43", "42", "2"})
STEPS = {"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7}
# The scales' degrees by step, as places on the line of fifths from the tonic.
MAJOR, MINOR = (0, 2, 4, -1, 1, 3, 5), (0, 2, -3, -1, 1, -4, -2)


@dataclass(frozen=True, slots=True)
class _Home:
    """A key inside the song's: its tonic as a place on the line of fifths from the song's, and its mode."""

    fifths: int = 0
    minor: bool = False


@lru_cache(maxsize=4096)
def read_roman(
    text: str,
    key: Key,
    numbering: Numbering = Numbering(),  # noqa: B008 - frozen
    *,
    sevenths: Sevenths = "scale",
) -> NumberChord:
    """Read a Roman numeral in a key as a number.

    Parameters
    ----------
    key : Key
        The key of the analysis; its mode decides what VI and VII mean.
    numbering : Numbering
        How the number is to be counted.
    sevenths : {'scale', 'minor'}
        What a bare 7 is: the scale's seventh, as in analyses, or a minor one, as on stage.

    Raises
    ------
    ChordFault
        The text is no Roman numeral.
    """
    chord = _in_home(plain_signs(text.strip()), text, _Home(minor=key.is_minor), sevenths)
    return recount(chord, numbering.home(key).fifths)


def _in_home(plain: str, text: str, home: _Home, sevenths: Sevenths) -> NumberChord:
    """A chord counted from the tonic of the song's key."""
    plain = plain.replace("hdim", "ø").replace("dim", "o")
    applied = APPLIED.match(plain)
    if applied:
        for target in reversed(applied[2].strip("/").split("/")):
            home = _target(target, home)
        plain = applied[1]
    plain = NAMES.get(plain, plain)
    if plain in SIXTHS:
        base, changes = SIXTHS[plain]
        return NumberChord(_within(home.fifths - 4), make_quality("", base, changes))
    match = CHORD.match(plain)
    if match:
        return _chord(match, home, sevenths)
    return _other(plain, text, home)


def _target(text: str, home: _Home) -> _Home:
    stem = text.lstrip("b#")
    sign = text[: len(text) - len(stem)]
    minor = stem.islower()
    return _Home(home.fifths + _root(sign, stem, home, raised=minor), minor)


def _chord(match: re.Match[str], home: _Home, sevenths: Sevenths) -> NumberChord:
    small = match["numeral"].islower()
    triad = TRIADS[match["triad"]] if match["triad"] else "-" if small else ""
    figures = (match["figures"] or "").replace("/", "")
    raised = triad in ("-", "o", "ø")
    place = _root(match["sign"] or "", match["numeral"], home, raised=raised)
    quality = _quality(match, triad, figures, place, home, sevenths)
    root = _within(home.fifths + place)
    inversion = INVERSIONS.get(figures)
    bass = None if inversion is None else _tone(quality, inversion)
    return NumberChord(root, quality, None if bass is None else Degree(root.fifths + bass))


def _root(sign: str, numeral: str, home: _Home, *, raised: bool) -> int:
    """The root as a place from its key's tonic."""
    step = STEPS[numeral.upper()]
    place = degree_from(step, 0).fifths
    if not home.minor or step not in (3, 6, 7):
        return place + 7 * (sign.count("#") - sign.count("b"))
    if sign.startswith("b"):
        return place - 7 * len(sign)
    if sign:
        return place + 7 * (len(sign) - 1)
    return place if raised and step != 3 else place - 7


def _quality(
    match: re.Match[str], triad: str, figures: str, place: int, home: _Home, sevenths: Sevenths
) -> Quality:
    changes = tuple(re.findall(r"\[([^\[\]]+)\]", match["added"]))
    if triad == "ø" and figures not in OF_SEVENTH:
        return make_quality("o", "", changes)  # a half-diminished triad is a diminished one
    if figures not in OF_SEVENTH:
        return make_quality(triad, "7" if match["dominant"] else "", changes)
    if "maj7" in changes:
        return make_quality(triad, "maj7", tuple(each for each in changes if each != "maj7"))
    plain = match["dominant"] or triad in ("o", "ø") or sevenths == "minor"
    return make_quality(triad, "7" if plain else _seventh(match["numeral"], place, home), changes)


def _seventh(numeral: str, place: int, home: _Home) -> str:
    """The seventh that the scale puts over a root: minor or major."""
    scale = MINOR if home.minor else MAJOR
    above = scale[(STEPS[numeral.upper()] + 5) % 7] - place
    return "maj7" if above >= 5 else "7"


def _tone(quality: Quality, inversion: int) -> int:
    """The place above the root of the chord tone that an inversion puts in the bass."""
    steps = {1: 2, 2: 4, 3: 6}[inversion]
    return next((tone.fifths for tone in quality.tones if tone.steps == steps), 0)


def _other(plain: str, text: str, home: _Home) -> NumberChord:
    """What a chart text can say too, ``Isus4`` or ``V9``; its root moves with the mode."""
    match = START.match(plain)
    if match is None:
        fix = "Write it as in 'IV', 'ii7', 'viio6' or 'V7/V'"
        raise ChordFault(f"'{text}' is no Roman numeral", "chord", fix)
    chord = read_number_chord(plain)
    raised = chord.quality.triad in ("-", "o", "ø")
    place = _root(match["sign"] or "", match["numeral"], home, raised=raised)
    bass = None if chord.bass is None else Degree(chord.bass.fifths + home.fifths)
    return NumberChord(_within(home.fifths + place), chord.quality, bass)


def _within(fifths: int) -> Degree:
    """A degree with at most two accidentals."""
    return Degree(fifths + 12 if fifths < LOWEST else fifths)
