"""One chord as a ``harmony`` element, in letters or in numbers."""

from dataclasses import dataclass
from functools import lru_cache

from fifthwise.exchange.musicxml.kinds import Kind, kind_of, kind_text
from fifthwise.exchange.musicxml.pen import element, escaped
from fifthwise.theory import (
    Degree,
    Key,
    LetterChord,
    NoteName,
    NumberChord,
    Numbering,
    to_letters,
)

__all__ = ["Count", "count_in", "harmony"]

# No chord has a root; the standard asks for one all the same, and its text is not printed.
NO_CHORD = '<root><root-step text="">C</root-step></root><kind text="N.C.">none</kind>'
LOWERED_STEPS = (3, 6, 7)


@dataclass(frozen=True, slots=True)
class Count:
    """How chords are written at a place.

    Attributes
    ----------
    one : NoteName
        The written note from which a chart's numbers count.
    as_numbers : bool
        Whether numbers are written, rather than letters.
    key : str
        The ``numeral-key`` in which they count; empty for the part's own.
    lowers : bool
        Whether written 3, 6 and 7 mean b3, b6 and b7, as in plain minor.
    """

    one: NoteName
    as_numbers: bool
    key: str = ""
    lowers: bool = False


@lru_cache(maxsize=256)
def count_in(key: Key, numbering: Numbering, by: int, *, as_numbers: bool) -> Count:
    """How chords are written in a key that is written ``by`` fifths from how it sounds.

    Numbers count in a major scale on the 1, and say so where the part's key is another. A song counted in
    natural minor counts as the standard does.
    """
    one = NoteName(numbering.one(key).fifths + by)
    lowers = numbering.lowers(key)
    if not as_numbers or lowers or key.mode in ("major", "ionian"):
        return Count(one, as_numbers, lowers=lowers)
    own = element("numeral-fifths", one.fifths) + element("numeral-mode", "major")
    return Count(one, as_numbers, element("numeral-key", own))


@lru_cache(maxsize=4096)
def harmony(chord: NumberChord | LetterChord | None, count: Count) -> str:
    """What stands inside a ``harmony`` element, without its offset."""
    if chord is None:
        return NO_CHORD
    if isinstance(chord, LetterChord):
        return _root(chord) + _kind(chord, as_number=False) + _bass(chord.bass, None)
    letters = to_letters(chord, count.one)
    kind, degrees = _kind(chord, as_number=count.as_numbers), _degrees(kind_of(chord.quality))
    if not count.as_numbers:
        return _root(letters) + kind + _bass(letters.bass, None) + degrees
    return _numeral(chord, count) + kind + _bass(letters.bass, _degree(chord.bass, count)) + degrees


def _root(chord: LetterChord) -> str:
    return element("root", _note("root", chord.root))


def _note(name: str, note: NoteName) -> str:
    alter = element(f"{name}-alter", note.alter) if note.alter else ""
    return element(f"{name}-step", note.letter) + alter


def _numeral(chord: NumberChord, count: Count) -> str:
    step, alter = _counted(chord.root, count)
    sign = element("numeral-alter", alter) if alter else ""
    return element("numeral", f'<numeral-root text="{step}">{step}</numeral-root>{sign}{count.key}')


def _counted(degree: Degree, count: Count) -> tuple[int, int]:
    """The number of a degree and its alteration, as the song counts."""
    raised = count.lowers and degree.step in LOWERED_STEPS
    return degree.step, degree.alter + raised


def _degree(degree: Degree | None, count: Count) -> str | None:
    if degree is None:
        return None
    step, alter = _counted(degree, count)
    return f"{'#' * alter if alter > 0 else 'b' * -alter}{step}"


def _bass(bass: NoteName | None, printed: str | None) -> str:
    """A bass; a numeral has none of its own, so that its letter is printed as a number."""
    if bass is None:
        return ""
    if printed is None:
        return element("bass", _note("bass", bass))
    alter = f'<bass-alter print-object="no">{bass.alter}</bass-alter>' if bass.alter else ""
    return element("bass", f'<bass-step text="{printed}">{bass.letter}</bass-step>{alter}')


def _kind(chord: NumberChord | LetterChord, *, as_number: bool) -> str:
    text = escaped(kind_text(chord.quality, as_number=as_number))
    return f'<kind text="{text}">{kind_of(chord.quality).name}</kind>'


def _degrees(kind: Kind) -> str:
    """What the kind does not say; the kind's text prints it."""
    return "".join(
        '<degree print-object="no">'
        + element("degree-value", change.value)
        + element("degree-alter", change.alter)
        + element("degree-type", change.type)
        + "</degree>"
        for change in kind.changes
    )
