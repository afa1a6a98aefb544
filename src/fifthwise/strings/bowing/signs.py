"""How a stroke is written: its usual printed sign, and a letter where a font lacks it."""

from dataclasses import dataclass

from fifthwise.strings.bowing.table import bowing_table

__all__ = ["Sign", "sign_of", "signs"]


@dataclass(frozen=True, slots=True)
class Sign:
    """The writing of one stroke.

    Attributes
    ----------
    stroke : str
        A kind of stroke, or ``accent``.
    words : str
        What it is called.
    glyph : str
        Its usual sign, empty for a rest. Both bow signs are combining: they need a character before them.
    text : str
        One letter for plain text and for fonts that lack the sign.
    musicxml : str
        The MusicXML 4.0 element that says it.
    """

    stroke: str
    words: str
    glyph: str
    text: str
    musicxml: str


def signs() -> tuple[Sign, ...]:
    """Every sign, bow directions first."""
    return tuple(Sign(stroke, **row) for stroke, row in bowing_table()["signs"].items())


def sign_of(stroke: str) -> Sign:
    """The sign of a kind of stroke, or of ``accent``."""
    return Sign(stroke, **bowing_table()["signs"][stroke])
