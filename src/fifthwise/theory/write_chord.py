"""Chords written as text: numbers, Roman numerals and letters, in one settled form each."""

from fifthwise.theory.chord import LetterChord, NumberChord
from fifthwise.theory.degree import Degree
from fifthwise.theory.errors import ChordFault
from fifthwise.theory.note import accidentals
from fifthwise.theory.numbering import raised
from fifthwise.theory.quality import Quality
from fifthwise.theory.read_chord import read_number_chord

__all__ = ["quality_text", "write_letters", "write_number", "write_roman"]

ROMAN = ("I", "II", "III", "IV", "V", "VI", "VII")
LETTER_TRIADS = {"": "", "-": "m", "o": "dim", "+": "+"}


def write_number(chord: NumberChord, *, scale: tuple[Degree, ...] = (), lowers: bool = False) -> str:
    """Write a chord as a number.

    Parameters
    ----------
    chord : NumberChord
        What to write.
    scale : tuple of Degree
        The scale that gives a plain number its triad; empty where plain means major. A chord that
        such a song cannot write as a number is written as a Roman numeral, whose case is its quality.
    lowers : bool
        Whether 3 6 7 mean b3 b6 b7.
    """
    text = _number(chord, chord.quality, lowers)
    if not scale:
        return text
    short = _number(chord, _without_triad(chord.quality), lowers)
    for form in (short, text):
        if _reads_as(form, chord, scale, lowers):
            return form
    return write_roman(chord, lowers=lowers)


def _reads_as(form: str, chord: NumberChord, scale: tuple[Degree, ...], lowers: bool) -> bool:
    try:
        return read_number_chord(form, scale=scale, lowers=lowers) == chord
    except ChordFault:  # the scale's triad does not go with the changes
        return False


def _without_triad(quality: Quality) -> Quality:
    return Quality("", quality.base, quality.changes)


def _number(chord: NumberChord, quality: Quality, lowers: bool) -> str:
    root = raised(chord.root) if lowers else chord.root
    return f"{root}{quality_text(quality)}{_bass(chord, lowers)}"


def _bass(chord: NumberChord, lowers: bool) -> str:
    if chord.bass is None:
        return ""
    return f"/{raised(chord.bass) if lowers else chord.bass}"


def quality_text(quality: Quality) -> str:
    """The quality as a number chart writes it: ``-7``, ``7(b9 #11)``, ``(5)``."""
    if quality.is_power:
        return "(5)"
    return f"{quality.triad}{quality.base}{_brackets(quality.changes)}"


def _brackets(changes: tuple[str, ...]) -> str:
    return f"({' '.join(changes)})" if changes else ""


def write_roman(chord: NumberChord, *, lowers: bool = False) -> str:
    """Write a chord as a Roman numeral: capitals for a major third, small for a minor one."""
    degree = raised(chord.root) if lowers else chord.root
    quality = chord.quality
    numeral = accidentals(degree.alter) + ROMAN[degree.step - 1]
    if quality.triad in ("-", "o", "ø"):
        numeral = numeral.lower()
    triad = "" if quality.triad == "-" else quality.triad
    base = "add6" if quality.base == "6" else quality.base
    changes = "(5)" if quality.is_power else _brackets(quality.changes)
    return f"{numeral}{triad}{base}{changes}{_bass(chord, lowers)}"


def write_letters(chord: LetterChord) -> str:
    """Write a chord in letters: ``Gm7``, ``D/F#``, ``Bm7b5``, ``C5``."""
    bass = "" if chord.bass is None else f"/{chord.bass}"
    return f"{chord.root}{_letter_quality(chord.quality)}{bass}"


def _letter_quality(quality: Quality) -> str:
    triad, base, changes = quality.triad, quality.base, quality.changes
    if quality.is_power:
        return "5"
    if triad == "ø":
        return f"m{base}b5{_brackets(changes)}" if base == "7" else f"m{base}{_brackets(('b5', *changes))}"
    if triad == "-" and base.startswith("maj"):
        return f"m({base}{''.join(f' {c}' for c in changes)})"
    return f"{LETTER_TRIADS[triad]}{base}{_brackets(changes)}"
