"""Print: page records set by Typst with our fonts alone, the same bytes for the same input."""

import json
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any, Literal, cast

import typst

from fifthwise.page.layout_view import Paper
from fifthwise.page.printable import printable

__all__ = ["MADE_AT", "PdfStandard", "Record", "book_pages", "book_pictures", "record_text"]

PdfStandard = Literal["ua-1", "a-2u"]
# A page's values; or their text, where it was written once for several books.
Record = Mapping[str, Any] | str
# A fixed moment, in seconds since 1970, so that the same pages give the same file.
MADE_AT = 1_767_225_600


@cache
def _folder() -> Path:
    """The templates' folder. Typst reads them and the fonts from disk, so the package is not zipped."""
    return Path(str(resources.files("fifthwise.page")))


@cache
def _fonts() -> typst.Fonts:
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[_folder() / "fonts"]
    )


def book_pages(
    records: Sequence[Record], *, paper: Paper, title: str, standard: PdfStandard = "ua-1"
) -> bytes:
    """Set page records as one PDF.

    Parameters
    ----------
    records : sequence of mapping or str
        One a document, in order, or its ``record_text``; ``kind`` picks the template: ``chart``, ``lyrics``,
        ``title``, ``keysheet``, ``voice``, ``board``.
    title : str
        Of the whole file.
    standard : {'ua-1', 'a-2u'}
        Accessible and tagged, or for an archive.
    """
    pdf = typst.compile(
        _project(records, paper, title),
        font_paths=_fonts(),
        format="pdf",
        pdf_standards=[standard],
        timestamp=MADE_AT,
    )
    assert isinstance(pdf, bytes)
    return pdf


def book_pictures(
    records: Sequence[Record], *, paper: Paper, title: str, ppi: float = 110
) -> tuple[bytes, ...]:
    """Set page records as one PNG a page."""
    set_pages = typst.compile(_project(records, paper, title), font_paths=_fonts(), format="png", ppi=ppi)
    # Typst's own types leave out that several pages come as a list.
    pages = cast("bytes | list[bytes]", set_pages)
    return (pages,) if isinstance(pages, bytes) else tuple(pages)


@cache
def _templates() -> dict[str, bytes]:
    files = {file.name: file.read_bytes() for file in _folder().glob("*.typ")}
    return {"main": files.pop("book.typ"), **files}


def _project(records: Sequence[Record], paper: Paper, title: str) -> Any:
    """The templates with the book's data as files beside them.

    Typst keeps what it has worked out for as long as the files behind it are the same. ``sys.inputs`` count
    as read by everything; a file counts where it is read, so that in a process that prints the book again
    only songs that have changed are set again.
    """
    papers = {"a4": "a4", "letter": "us-letter"}
    head = record_text({"paper": papers[paper], "title": title})
    documents = ",".join(record if isinstance(record, str) else record_text(record) for record in records)
    text = f'{head[:-1]},"documents":[{documents}]}}'
    # Typst's own types leave out that several files come as a dict.
    return {**_templates(), "book.json": text.encode()}


def record_text(record: Mapping[str, Any]) -> str:
    """A page's values as JSON, with every text as it can be printed."""
    return json.dumps(_printable(record), ensure_ascii=False, separators=(",", ":"))


def _printable(value: Any) -> Any:
    """The same values with every text as it can be printed."""
    kind = type(
        value
    )  # a book has a million values: their own types are quicker to ask than what they are like
    if kind is str:
        return value if value.isascii() and value.isprintable() else printable(value)
    if kind is int or kind is float or kind is bool or value is None:
        return value
    if isinstance(value, Mapping):
        return {name: _printable(part) for name, part in value.items()}
    return [_printable(part) for part in value] if isinstance(value, list | tuple) else value
