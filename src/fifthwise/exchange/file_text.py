"""The text of a file that somebody else saved: which encoding it has, and whether it is text at all."""

import re
from dataclasses import dataclass

from fifthwise.chart import LARGEST_TEXT, ChartFaults, Fault

__all__ = ["FileText", "check_length", "text_of"]

BOMS = (
    (b"\xef\xbb\xbf", "utf-8"),
    (b"\xff\xfe\0\0", "utf-32-le"),
    (b"\0\0\xfe\xff", "utf-32-be"),
    (b"\xff\xfe", "utf-16-le"),
    (b"\xfe\xff", "utf-16-be"),
)
# What no typed text holds: controls other than tabs, line ends and page ends.
CONTROLS = re.compile(r"[\x00-\x08\x0b\x0e-\x1f\x7f]")
WIDE_SHARE = 0.3  # of every second byte that is 0 in UTF-16 of a European text
SAMPLE = 4096
OLD = "it is no UTF-8 text, and is read as Windows-1252; look at the letters with accents"


@dataclass(frozen=True, slots=True)
class FileText:
    """A text, and what is to be told of its encoding."""

    text: str
    told: tuple[str, ...] = ()


def text_of(data: bytes, file: str) -> FileText:
    """Decode a text in UTF-8, UTF-16, UTF-32 or Windows-1252; its line ends become ours.

    Raises
    ------
    ChartFaults
        It is no text; tells where.
    """
    found = _decoded(data)
    if found is None:
        raise _no_text(data.decode("utf-8", "replace"), "\ufffd", file)
    control = CONTROLS.search(found.text)
    if control:
        raise _no_text(found.text, control[0], file)
    return FileText(found.text.replace("\r\n", "\n").replace("\r", "\n"), found.told)


def check_length(text: str, file: str) -> None:
    """Refuse a text that is longer than a chart may be.

    Raises
    ------
    ChartFaults
        It is.
    """
    size = len(text.encode())
    if size <= LARGEST_TEXT:
        return
    fix = f"A text may have {LARGEST_TEXT / 1e6:.0f} MB; split it"
    raise ChartFaults((Fault(f"the file has {size / 1e6:.1f} MB", fix, 1, 1, 1, "", file),))


def _no_text(text: str, sign: str, file: str) -> ChartFaults:
    """A fault at the first sign that no text has."""
    before = text.partition(sign)[0]
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    what = "the file holds NUL bytes" if sign == "\0" else "the file is no text, or is broken here"
    fix = "Save it as plain text, with the encoding UTF-8"
    return ChartFaults((Fault(what, fix, line, column, 1, "", file),))


def _decoded(data: bytes) -> FileText | None:
    for bom, encoding in BOMS:
        if data.startswith(bom):
            return _in(data[len(bom) :], encoding)
    wide = _wide(data[:SAMPLE])
    if wide:
        return _in(data, wide)
    return _in(data, "utf-8") or _old(data)


def _in(data: bytes, encoding: str) -> FileText | None:
    try:
        return FileText(data.decode(encoding))
    except UnicodeDecodeError:
        return None


def _wide(sample: bytes) -> str:
    """The UTF-16 that a text without a mark at its start seems to be in; or nothing."""
    half = max(1, len(sample) // 2)
    low, high = sample[1::2].count(0) / half, sample[::2].count(0) / half
    if low > WIDE_SHARE and high < low / 4:
        return "utf-16-le"
    return "utf-16-be" if high > WIDE_SHARE and low < high / 4 else ""


def _old(data: bytes) -> FileText | None:
    """A text in Windows-1252; not one in UTF-8 that is broken in a few places."""
    tried = data.decode("utf-8", "replace")
    broken = tried.count("\ufffd")
    if sum(sign > "\x7f" for sign in tried) - broken > broken:
        return None
    found = _in(data, "cp1252")
    return FileText(found.text, (OLD,)) if found else None
