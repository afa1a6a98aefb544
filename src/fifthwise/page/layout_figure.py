"""Chords taken apart for drawing: as numbers, as Roman numerals, and as letters."""

from functools import lru_cache

from fifthwise.page.layout_bar import Figure
from fifthwise.page.text_signs import printed
from fifthwise.theory import Degree, LetterChord, NoteName, NumberChord, Quality, write_number

__all__ = ["letter_figure", "number_figure", "roman_figure"]

NUMERALS = ("I", "II", "III", "IV", "V", "VI", "VII")
SMALL_THIRD = ("-", "o", "ø")
RAISED_TRIADS = {"o": "°", "ø": "ø", "+": "+"}
ACCIDENTALS = "♭♯𝄫𝄪"


# A song has few different chords, and a chord is drawn at each of its places.
@lru_cache(maxsize=4096)
def number_figure(chord: NumberChord, *, lowers: bool = False) -> Figure:
    """A chord as a number, its quality always said; ``lowers`` writes b3 b6 b7 as 3 6 7."""
    sign, step = _degree(chord.root, lowers)
    after = "–" if chord.quality.triad == "-" else ""
    return Figure(sign, step, after, _raised(chord.quality), _bass(chord.bass, lowers))


@lru_cache(maxsize=4096)
def roman_figure(chord: NumberChord, *, lowers: bool = False) -> Figure:
    """A chord as a Roman numeral: capitals for a major third, small ones for a minor third."""
    sign, step = _degree(chord.root, lowers)
    numeral = NUMERALS[int(step) - 1]
    if chord.quality.triad in SMALL_THIRD:
        numeral = numeral.lower()
    raised = _raised(chord.quality)
    if chord.quality.base == "6":
        raised = f"add{raised}"
    return Figure(sign, numeral, "", raised, _bass(chord.bass, lowers))


@lru_cache(maxsize=4096)
def letter_figure(chord: LetterChord) -> Figure:
    """A chord in letters."""
    minor = "m" if chord.quality.triad == "-" else ""
    power = "5" if chord.quality.is_power else ""  # as large as its root: B♭5 has no flat five
    raised = "" if power else _raised(chord.quality)
    bass = "" if chord.bass is None else printed(chord.bass)
    return Figure("", chord.root.letter, _accidental(chord.root) + minor + power, raised, bass)


def _accidental(note: NoteName) -> str:
    return printed(str(note)[1:])


def _degree(degree: Degree, lowers: bool) -> tuple[str, str]:
    """The accidental and the number of a degree, as the song's numbering writes it."""
    written = printed(write_number(NumberChord(degree), lowers=lowers))
    return written.rstrip("1234567"), written.lstrip(ACCIDENTALS)


def _bass(bass: Degree | None, lowers: bool) -> str:
    return "" if bass is None else "".join(_degree(bass, lowers))


def _raised(quality: Quality) -> str:
    """What stands small and high."""
    if quality.is_power:
        return "(5)"
    changes = f"({' '.join(quality.changes)})" if quality.changes else ""
    base = quality.base.replace("maj", "△")
    return RAISED_TRIADS.get(quality.triad, "") + base + _change_signs(changes)


def _change_signs(changes: str) -> str:
    """Print changes: a major seventh as △, accidentals only before figures (the b of no word is touched)."""
    return printed(changes).replace("maj", "△")
