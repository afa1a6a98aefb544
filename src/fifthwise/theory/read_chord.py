"""Chords read from text: numbers and Roman numerals, and letters counted in a key.

A number is ``[accidentals][1-7][quality][base][(changes)][/bass]`` with nothing between. Roman numerals
carry their quality by case and may have figures (``V65``) or be applied (``V7/vi``).
"""

import re
from functools import lru_cache

from fifthwise.theory.chord import NumberChord, to_number
from fifthwise.theory.degree import Degree, read_degree
from fifthwise.theory.errors import ChordFault, NoteFault
from fifthwise.theory.key import Key
from fifthwise.theory.note import NoteName, read_note
from fifthwise.theory.numbering import Numbering, lowered
from fifthwise.theory.quality import Quality, make_quality, quality_tones
from fifthwise.theory.read_letters import read_letter_chord
from fifthwise.theory.signs import BASE, TRIAD, TRIAD_SIGNS, plain_signs, read_base, read_change

__all__ = ["read_chord", "read_number_chord"]

TAIL = r"(?:\((?P<changes>[^()]*)\))?(?:/(?P<bass>[^/]+))?\Z"
NUMBER = re.compile(r"(?P<root>(?:bb|##|b|#)?[1-7])(?P<major>maj(?!\d)|M(?!\d))?" + TRIAD + BASE + TAIL)
ROMAN = re.compile(
    r"(?P<acc>bb|##|b|#)?(?P<root>VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)"
    r"(?P<triad>dim|o|ø|aug|\+|-|m(?!aj))?"
    r"(?P<figure>6/?4|6/?5|4/?3|4/?2|6(?![/9\d]))?"
    r"(?P<base>(?:maj|ma|M)(?:13|11|9|7)|13sus4?|9sus4?|7sus4?|69|sus2|sus4|sus|13|11|9|7)?"
    r"(?P<add>(?:add[b#]?\d+)?)(?:\((?P<changes>[^()]*)\))?"
    r"(?:/(?P<of>[b#]*(?:VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)))?(?:/(?P<bass>[^/]+))?\Z"
)
ROMAN_STEPS = {"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7}
# The chord tone that each figure puts in the bass, as an index above the root, and whether it has a 7.
FIGURES = {"6": (1, False), "64": (2, False), "65": (1, True), "43": (2, True), "42": (3, True)}
DIGITS_RUN = re.compile(r"((?:bb|##|b|#)?[1-7])(\d+)(.*)\Z")
BARE_CHANGE = re.compile(r"((?:bb|##|b|#)?[1-7][^b#(/]*?)((?:add|no)[b#]?\d+|[b#]\d+)(/.+)?\Z")


# Small letters that may be meant as chords; b is a flat.
SMALL_LETTERS = tuple("acdefg")


@lru_cache(maxsize=8192)
def read_chord(text: str, key: Key, numbering: Numbering = Numbering()) -> NumberChord:  # noqa: B008 - frozen
    """Read a chord written in any of the three ways, as a number of the key.

    Parameters
    ----------
    text : str
        ``6-7``, ``vi7`` or ``Am7``.
    key : Key
        The key in which letters are counted.
    numbering : Numbering
        Which note is 1, and what a plain number means.

    Raises
    ------
    ChordFault
        The text is no chord; ``mends`` names what may have been meant.
    """
    plain = plain_signs(text)
    if plain[:1] in "ABCDEFG" and plain:
        return to_number(read_letter_chord(text), numbering.one(key))
    scale = numbering.scale(key) if numbering.plain == "diatonic" else ()
    return read_number_chord(text, scale=scale, lowers=numbering.lowers(key), one=numbering.one(key))


def read_number_chord(
    text: str, *, scale: tuple[Degree, ...] = (), lowers: bool = False, one: NoteName | None = None
) -> NumberChord:
    """Read a chord written as a number or a Roman numeral.

    Parameters
    ----------
    text : str
        ``57(b9)``, ``bVII``, ``V7/vi``.
    scale : tuple of Degree
        The scale from which a number without quality takes its triad; empty where plain means major.
    lowers : bool
        Whether 3 6 7 mean b3 b6 b7.
    one : NoteName, optional
        The 1 from which a bass given as a letter is counted.

    Raises
    ------
    ChordFault
        The text is no chord.
    """
    plain = plain_signs(text)
    match = NUMBER.match(plain)
    if match:
        return _number(match, scale, lowers, one)
    roman = ROMAN.match(plain)
    if roman:
        return _roman(roman, lowers, one)
    half_diminished = re.fullmatch(r"((?:bb|##|b|#)?[1-7])(?:-|min|mi|m)7b5(/.+)?", plain)
    if half_diminished:
        rest = half_diminished[2] or ""
        return read_number_chord(f"{half_diminished[1]}ø7{rest}", scale=scale, lowers=lowers, one=one)
    raise _number_fault(text, plain)


def _number(
    match: re.Match[str], scale: tuple[Degree, ...], lowers: bool, one: NoteName | None
) -> NumberChord:
    written = read_degree(match["root"])
    root = lowered(written) if lowers else written
    triad = TRIAD_SIGNS[match["triad"]] if match["triad"] else ""
    base, extra = read_base(match["base"])
    changes = _split_changes(match["changes"])
    if scale and not match["triad"] and not match["major"] and not base.startswith("sus"):
        triad = _scale_triad(root, scale, base)
    return NumberChord(root, make_quality(triad, base, (*changes, *extra)), _bass(match["bass"], lowers, one))


def _split_changes(text: str | None) -> tuple[str, ...]:
    if text is None:
        return ()
    items = tuple(item for item in re.split(r"[ ,]+", text.strip()) if item)
    if not items:
        raise ChordFault("the brackets are empty", "chord", "Write what changes, as in '(b9)'")
    return tuple(read_change(item) for item in items)


def _scale_triad(root: Degree, scale: tuple[Degree, ...], base: str) -> str:
    """The triad that the scale builds on one of its degrees; major elsewhere."""
    places = {d.fifths for d in scale}
    if root.fifths not in places or base in ("7sus", "9sus"):
        return ""
    if root.fifths + 4 in places:
        return ""
    if root.fifths + 1 in places:
        return "-"
    return "ø" if base in ("7", "9", "11", "13") else "o"


def _bass(text: str | None, lowers: bool, one: NoteName | None) -> Degree | None:
    if text is None:
        return None
    try:
        if text[0] in "ABCDEFG":
            if one is None:
                raise ChordFault(
                    f"the bass '{text}' is a letter", "chord", "Write it as a number, or name the key"
                )
            return Degree(read_note(text).fifths - one.fifths)
        degree = read_degree(text)
    except NoteFault as fault:
        raise ChordFault(f"the bass '{text}' is no degree", "chord", "Write 1 to 7, as in '5/7'") from fault
    return lowered(degree) if lowers else degree


def _roman(match: re.Match[str], lowers: bool, one: NoteName | None) -> NumberChord:
    root = _roman_degree(match["acc"] or "", match["root"])
    root = lowered(root) if lowers and not match["of"] else root
    quality, bass = _roman_quality(match), None
    if match["figure"]:
        quality, bass = _figured(match["figure"].replace("/", ""), quality, root)
    if match["of"]:
        root, bass = _applied(match["of"], root, bass, lowers)
    if match["bass"]:
        if match["figure"]:
            raise ChordFault("the figure already gives the bass", "chord", "Leave the figure or the bass out")
        bass = _bass(match["bass"], lowers, one)
    return NumberChord(root, quality, bass)


def _roman_degree(accidental: str, numeral: str) -> Degree:
    return read_degree(f"{accidental}{ROMAN_STEPS[numeral.upper()]}")


def _roman_quality(match: re.Match[str]) -> Quality:
    triad = TRIAD_SIGNS[match["triad"]] if match["triad"] else ""
    small = match["root"].islower()
    if small and triad == "+":
        raise ChordFault(
            "a small numeral is minor and has no '+'", "chord", "Write it in capitals, as in 'III+'"
        )
    if not small and triad == "-":
        raise ChordFault(
            "a capital numeral is major and has no minor sign", "chord", "Write it small, as in 'vi'"
        )
    base, extra = read_base(match["base"])
    changes = (*_split_changes(match["changes"]), *extra, *((match["add"],) if match["add"] else ()))
    return make_quality(triad or ("-" if small else ""), base, changes)


def _figured(figure: str, quality: Quality, root: Degree) -> tuple[Quality, Degree]:
    index, seventh = FIGURES[figure]
    if seventh:
        quality = make_quality(quality.triad, "7", quality.changes)
    return quality, Degree(root.fifths + quality_tones(quality)[index].fifths)


def _applied(of: str, root: Degree, bass: Degree | None, lowers: bool) -> tuple[Degree, Degree | None]:
    """Count a chord from the degree that it is applied to."""
    stem = of.lstrip("b#")
    target = _roman_degree(of[: len(of) - len(stem)], stem)
    away = (lowered(target) if lowers else target).fifths
    return Degree(root.fifths + away), None if bass is None else Degree(bass.fifths + away)


def _number_fault(text: str, plain: str) -> ChordFault:
    """Say what a broken number chord may have meant."""
    run = DIGITS_RUN.match(plain)
    if plain[:1] in ("8", "9", "0") and plain[:1].isdigit():
        return ChordFault(f"'{text}' is no chord number", "chord", "Write 1 to 7, as in '1'", ())
    if run and run[2] == "7":
        run = None
    if run and not re.match(r"(13|11|9|7|69|6)", run[2]):
        return _digits_fault(text, run)
    bare = BARE_CHANGE.match(plain)
    if bare:
        return _bare_change_fault(text, bare)
    return _unknown_fault(text, plain)


def _unknown_fault(text: str, plain: str) -> ChordFault:
    capital = plain[:1].upper() + plain[1:]
    if plain[:1] in SMALL_LETTERS and _is_letter_chord(capital):
        return ChordFault(f"'{text}' is no chord", "chord", f"Did you mean '{capital}'?", (capital,))
    if plain[:1].isalpha():
        fix = "Write letters as in 'Bb7', or a number as in '6-7'"
    else:
        fix = "Write a number and its quality, as in '6-7', '5/7' or '4maj7'"
    return ChordFault(f"'{text}' is no chord", "chord", fix)


def _is_letter_chord(text: str) -> bool:
    try:
        read_letter_chord(text)
    except ChordFault:
        return False
    return True


def _digits_fault(text: str, run: re.Match[str]) -> ChordFault:
    apart = f"{run[1]} {' '.join(run[2])}{run[3]}" if run[2].isdigit() else text
    bracketed = {"5": "(5)", "2": "(add9)", "4": "(add11)"}.get(run[2])
    mends = (apart, f"{run[1]}{bracketed}") if bracketed and not run[3] else (apart,)
    asked = " or ".join(f"'{m}'" for m in mends)
    return ChordFault(
        f"'{text}' is two numbers or an unknown chord", "chord", f"Did you mean {asked}?", mends
    )


def _bare_change_fault(text: str, bare: re.Match[str]) -> ChordFault:
    head, change, rest = bare[1], bare[2], bare[3] or ""
    mends: tuple[str, ...] = (f"{head}({change}){rest}",)
    if change == "b7" and head[-1:].isdigit():
        mends = (f"{head}7{rest}", f"{head} b7{rest}")
    elif change[0] in "b#" and change[1:] in "1234567" and change not in ("b5", "#5"):
        mends = (f"{head} {change}{rest}",)
    asked = " or ".join(f"'{m}'" for m in mends)
    return ChordFault(f"'{text}' has a change outside brackets", "chord", f"Did you mean {asked}?", mends)
