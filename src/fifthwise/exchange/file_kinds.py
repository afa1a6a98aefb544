"""What a file is: by what it holds first, and by its name only where that leaves a choice."""

import re
from pathlib import PurePath
from typing import Literal

from fifthwise.exchange.errors import UnreadableFile
from fifthwise.exchange.letter_braces import BRACED
from fifthwise.exchange.letter_chart import is_chart_text
from fifthwise.exchange.numbers import is_lone_letter, is_number_sheet
from fifthwise.exchange.over_words import is_words_sheet
from fifthwise.exchange.roman import is_roman_sheet

__all__ = ["KINDS_READ", "KIND_NAMES", "FileKind", "kind_of_bytes", "kind_of_text", "named_kind"]

FileKind = Literal["chart", "json", "musicxml", "midi", "abc", "letters", "numbers"]
# What a player calls each, and how its files are named.
KIND_NAMES: dict[FileKind, str] = {
    "chart": "chart text",
    "json": "JSON",
    "musicxml": "MusicXML",
    "midi": "MIDI",
    "abc": "ABC",
    "letters": "a chart in letters",
    "numbers": "a number sheet",
}
ENDINGS: dict[str, FileKind] = {
    ".chart.md": "chart",
    ".json": "json",
    ".musicxml": "musicxml",
    ".mxl": "musicxml",
    ".xml": "musicxml",
    ".mid": "midi",
    ".midi": "midi",
    ".abc": "abc",
    ".txt": "letters",
    ".letters": "letters",
}
KINDS_READ = "MusicXML, MIDI, ABC, JSON of ours, chart text, and sheets typed as text are read"
# What other files begin with, what they are, and how a song comes out of them.
FOREIGN: tuple[tuple[bytes, str, str], ...] = (
    (b"%PDF", "a PDF", "Export MusicXML from the program that it was made with, or type the chords"),
    (b"\x89PNG", "a picture", "Type the chords as text"),
    (b"\xff\xd8\xff", "a picture", "Type the chords as text"),
    (b"GIF8", "a picture", "Type the chords as text"),
    (b"II*\0", "a picture", "Type the chords as text"),
    (b"MM\0*", "a picture", "Type the chords as text"),
    (b"ID3", "a recording", KINDS_READ),
    (b"OggS", "a recording", KINDS_READ),
    (b"fLaC", "a recording", KINDS_READ),
    (b"\x1f\x8b", "a packed file", "Unpack it first"),
    (b"BZh", "a packed file", "Unpack it first"),
    (b"\xfd7zXZ", "a packed file", "Unpack it first"),
    (b"7z\xbc\xaf", "a packed file", "Unpack it first"),
    (b"Rar!", "a packed file", "Unpack it first"),
    (b"\xd0\xcf\x11\xe0", "a document of a word processor", "Save it as plain text"),
    (b"{\\rtf", "a document of a word processor", "Save it as plain text"),
    (b"SQLite format 3\0", "a database", "A book is opened with 'fifthwise serve --book', not brought in"),
    (b"\x7fELF", "a program", KINDS_READ),
)
ZIPS = (b"PK\x03\x04", b"PK\x05\x06", b"PK\x07\x08")
MARKS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")
HTML = re.compile(r"<(?:!doctype\s+html|html|head|body)\b", re.IGNORECASE)
# A tune's number begins it, and its key ends its head (ABC 2.1, 3.1); without a number the name decides.
ABC_NUMBER = re.compile(r"^X:[ \t]*\d+", re.MULTILINE)
ABC_KEY = re.compile(r"^K:", re.MULTILINE)
ABC_LONGEST_HEAD = 20_000
CONTROL = re.compile(rb"[\0-\x08\x0e-\x1f]")


def kind_of_bytes(data: bytes, file: str) -> FileKind | None:
    """The kind of a file that is no plain text, by its first bytes; ``None`` where it may be one.

    Raises
    ------
    UnreadableFile
        It is empty, or of a kind that no song is read from; says which.
    """
    bare = data.lstrip(b" \t\r\n")
    if not bare.strip(b"\0\xef\xbb\xbf\xff\xfe"):
        raise UnreadableFile("the file is empty", file, KINDS_READ)
    for start, what, fix in FOREIGN:
        if data.startswith(start):
            raise UnreadableFile(f"this is {what}, of which no song is read", file, fix)
    if data[:4] == b"RIFF":
        return _riff(data, file)
    if data[:4] == b"MThd":
        return "midi"
    if data[:4] in ZIPS:
        return "musicxml"
    if named_kind(file) == "midi" and CONTROL.search(data[:400]):
        raise UnreadableFile("this is no MIDI file, or its start is lost", file, "Export it again")
    return "musicxml" if _is_xml(bare, file) else None


def _riff(data: bytes, file: str) -> FileKind:
    """MIDI may come in a RIFF envelope; sound and pictures do too."""
    if data[8:12] == b"RMID":
        return "midi"
    raise UnreadableFile("this is a recording or a picture, of which no song is read", file, KINDS_READ)


def _is_xml(bare: bytes, file: str) -> bool:
    start = bare[:400]
    for mark in MARKS:
        start = start.removeprefix(mark)
    text = start.replace(b"\0", b"").decode("latin-1").lstrip()
    if HTML.match(text):
        raise UnreadableFile("this is a web page, of which no song is read", file, "Paste its text instead")
    return text.startswith(("<?xml", "<!DOCTYPE", "<score-", "<!--\n<?xml")) or (
        text.startswith("<") and named_kind(file) == "musicxml"
    )


def kind_of_text(text: str, file: str) -> FileKind:
    """The kind of a plain text."""
    if is_chart_text(text):
        return "chart"
    if _is_json(text.lstrip("\ufeff \t\r\n"), file):
        return "json"
    if _is_abc(text[:ABC_LONGEST_HEAD], file):
        return "abc"
    if named_kind(file) == "chart":
        return "chart"
    return "numbers" if _is_numbers(text) else "letters"


def _is_json(text: str, file: str) -> bool:
    """Whether a text begins as an object, not with a line of a sheet that stands in braces."""
    if not text.startswith("{") or named_kind(file) == "json":
        return text.startswith("{")
    line = BRACED.match(text)
    remark = line is not None and text[line.end() :].strip() and text[1:].lstrip()[0] != '"'
    return '"' in text and not remark


def _is_numbers(text: str) -> bool:
    if not is_number_sheet(text) or is_roman_sheet(text):
        return False
    # Among numbers a letter alone is a key or a part, not chords over words.
    return not is_words_sheet("\n".join(line for line in text.splitlines() if not is_lone_letter(line)))


def _is_abc(head: str, file: str) -> bool:
    number = ABC_NUMBER.search(head)
    if number is None and named_kind(file) != "abc":
        return False
    return bool(ABC_KEY.search(head, number.end() if number else 0))


def named_kind(file: str) -> FileKind | None:
    """The kind that a file's name promises."""
    name = PurePath(file).name.lower()
    return next((kind for ending, kind in ENDINGS.items() if name.endswith(ending)), None)
