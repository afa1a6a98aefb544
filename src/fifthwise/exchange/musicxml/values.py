"""Texts and numbers of elements; what is no number is told with its place."""

import re
from fractions import Fraction
from xml.etree.ElementTree import Element

from fifthwise.exchange.errors import UnreadableFile
from fifthwise.theory import NoteName

__all__ = ["Place", "named_note", "text_at"]

WHOLE = re.compile(r"[+-]?\d{1,7}\Z")
DECIMAL = re.compile(r"[+-]?\d{1,9}(?:\.\d{0,12})?\Z")  # so short that a Fraction of it is small
STEPS = "FCGDAEB"


def text_at(element: Element, path: str, default: str = "") -> str:
    """The text of a child, without blanks round it."""
    found = element.findtext(path)
    return default if found is None else found.strip()


def named_note(step: str, alter: int) -> NoteName:
    """The note of a letter and its alteration in semitones."""
    return NoteName(STEPS.index(step) - 1 + 7 * alter)


class Place:
    """Where in a file the reading stands, and numbers read there."""

    def __init__(self, file: str, part: str) -> None:
        self.file, self.part, self.bar = file, part, "1"

    def fault(self, what: str) -> UnreadableFile:
        """What is wrong here."""
        where = f"{self.file}, part {self.part}, bar {self.bar}"
        return UnreadableFile(what, where, "Mend that bar, or export the file again")

    def whole(self, text: str, name: str, least: int, most: int) -> int:
        """A whole number within bounds.

        Raises
        ------
        UnreadableFile
            It is none.
        """
        if WHOLE.match(text) and least <= int(text) <= most:
            return int(text)
        raise self.fault(f"'{text[:20]}' is no {name} from {least} to {most}")

    def decimal(self, text: str, name: str) -> Fraction:
        """A number that is not below 0.

        Raises
        ------
        UnreadableFile
            It is none.
        """
        if DECIMAL.match(text) and not text.startswith("-"):
            return Fraction(text)
        raise self.fault(f"'{text[:20]}' is no {name}")

    def alter(self, text: str) -> Fraction:
        """An alteration in semitones, parts of one included.

        Raises
        ------
        UnreadableFile
            It is none, or larger than three.
        """
        if not text:
            return Fraction(0)
        if DECIMAL.match(text) and abs(Fraction(text)) <= 3:
            return Fraction(text)
        raise self.fault(f"'{text[:20]}' is no alteration")

    def note(self, step: str, alter: str) -> NoteName:
        """The note of a letter and its alteration.

        Raises
        ------
        UnreadableFile
            There is none.
        """
        if len(step) != 1 or step not in STEPS:
            raise self.fault(f"'{step[:20]}' is no letter of a note")
        return named_note(step, round(self.alter(alter)))
