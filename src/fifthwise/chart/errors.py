"""Faults of a chart.

FifthwiseError
├── TextFaults        everything that is wrong with one text
└── ChartError
    ├── ChartFaults   the same of a chart's text (a TextFaults too)
    └── FormFault     a form that does not unfold, or runs away
"""

from dataclasses import dataclass

from fifthwise.errors import FifthwiseError

__all__ = ["ChartError", "ChartFaults", "Fault", "FormFault", "TextFaults"]


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault, or notice, at a place in a chart's text.

    Attributes
    ----------
    what : str
        What is wrong, without a full stop.
    fix : str
        What was expected and how to mend it, without a full stop.
    line, column : int
        Place of the first character at fault, from 1.
    length : int
        Characters at fault, at least 1.
    text : str
        The whole line.
    file : str
        The name under which the text was read.
    mends : tuple of str
        What may have been meant, each ready to be typed in its place.
    """

    what: str
    fix: str
    line: int
    column: int
    length: int
    text: str
    file: str
    mends: tuple[str, ...] = ()

    def __str__(self) -> str:
        stop = "" if self.fix.endswith("?") else "."
        head = f"{self.file}:{self.line}:{self.column}: {self.what}. {self.fix}{stop}"
        shown, column = _window(self.text, self.column)
        if not shown.strip():
            return head
        carets = max(1, min(self.length, len(shown) - column + 1))
        return f"{head}\n  {shown}\n  {' ' * (column - 1)}{'^' * carets}"


def _window(text: str, column: int, width: int = 96) -> tuple[str, int]:
    """Cut a long line to what surrounds a column; tabs count as one character."""
    start = max(0, column - 1 - width * 2 // 3)
    return text[start : start + width].replace("\t", " "), column - start


class TextFaults(FifthwiseError):
    """Everything that is wrong with one text.

    Attributes
    ----------
    faults : tuple of Fault
        In text order, at least one.
    """

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        first = faults[0]
        super().__init__(first.what, f"{first.file}, line {first.line}, column {first.column}", first.fix)
        self.faults = faults

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)


class ChartError(FifthwiseError):
    """A fault of a chart."""


class ChartFaults(TextFaults, ChartError):
    """Everything that is wrong with one chart's text."""


class FormFault(ChartError):
    """A form that does not unfold, or that runs away.

    Attributes
    ----------
    place : tuple of int, or None
        Index of the section, and of the bar in it, that is at fault; ``None`` where the whole form is.
    """

    def __init__(self, what: str, where: str, fix: str, place: tuple[int, int] | None = None) -> None:
        super().__init__(what, where, fix)
        self.place = place
