"""A sheet as plain values, as ``chart.typ`` reads it."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Any, cast

from fifthwise.page.layout_bar import Figure
from fifthwise.page.layout_model import Sheet

__all__ = ["chart_record", "sheet_record"]

Plain = Any


def chart_record(layouts: Sequence[Sheet]) -> dict[str, Plain]:
    """Write a song for print.

    Parameters
    ----------
    layouts : sequence of Sheet
        The same song with different numbers of columns, the one that reads best first; print takes the
        first that stands on one page.

    Returns
    -------
    dict
        Text, numbers, lists and dicts; ``kind`` is ``chart``. Every figure carries its ``text``.
    """
    first = layouts[0]
    record = sheet_record(first)
    record["layouts"] = [
        {"columns": sheet.columns, "sections": [plain(section) for section in sheet.sections]}
        for sheet in layouts
    ]
    return {"kind": "chart", **record}


def sheet_record(sheet: Sheet) -> dict[str, Plain]:
    """Write what stands around the bars."""
    names = (
        "title",
        "by",
        "key",
        "sounds",
        "metre",
        "tempo",
        "tempo_note",
        "feel",
        "road",
        "strip",
        "reads",
        "notes",
        "legend",
        "respelled",
    )
    record = {name: plain(getattr(sheet, name)) for name in names}
    view = sheet.view
    return record | {
        "show": view.show,
        "singer": view.singer,
        "part": view.part.label,
        "bass_large": view.part.bass_large,
    }


PLAIN = (str, int, bool, float, type(None))


def plain(value: object) -> Plain:
    """Turn values into what JSON knows; a fraction becomes a float, since only places are drawn with it."""
    kind: type[Any] = type(value)
    if kind in PLAIN:
        return value
    if kind is tuple:
        return [plain(item) for item in cast("tuple[object, ...]", value)]
    if isinstance(value, Fraction):
        return value.numerator / value.denominator
    written = {name: plain(getattr(value, name)) for name in kind.__dataclass_fields__}
    return written | {"text": value.text} if isinstance(value, Figure) else written
