"""The text of a chart before it is read: decoding, size, remarks, and the list of faults."""

import re

from fifthwise.chart.errors import ChartFaults, Fault

__all__ = ["LARGEST_TEXT", "FaultList", "blank_remarks", "chart_text"]

# A chart of 60 bars takes about 2 kB; this leaves room for a long evening in one file.
LARGEST_TEXT = 1_000_000
REMARK = re.compile(r"<!--.*?-->", re.DOTALL)
NOT_BREAK = re.compile(r"[^\n]")


class FaultList:
    """Faults and notices gathered while one text is read."""

    def __init__(self, file: str, lines: list[str]) -> None:
        self.file, self.lines = file, lines
        self.faults: list[Fault] = []
        self.notices: list[Fault] = []
        self.natural = False  # whether a minor key writes 3 6 7 for b3 b6 b7

    def add(
        self, line: int, column: int, length: int, what: str, fix: str, mends: tuple[str, ...] = ()
    ) -> None:
        """Note a fault; ``line`` and ``column`` count from 1."""
        self.faults.append(self._fault(line, column, length, what, fix, mends))

    def tell(self, line: int, column: int, length: int, what: str, fix: str) -> None:
        """Note something that is read, but may have been meant otherwise."""
        self.notices.append(self._fault(line, column, length, what, fix, ()))

    def _fault(
        self, line: int, column: int, length: int, what: str, fix: str, mends: tuple[str, ...]
    ) -> Fault:
        text = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Fault(what, fix, line, column, max(1, length), text, self.file, mends)


def chart_text(raw: bytes, file: str) -> str:
    """Decode a chart's bytes.

    Raises
    ------
    ChartFaults
        The file is too large, is no UTF-8 text, or holds NUL bytes.
    """
    if len(raw) > LARGEST_TEXT:
        size = f"the file has {len(raw) / 1e6:.1f} MB"
        raise _whole_file(file, size, f"A chart may have {LARGEST_TEXT / 1e6:.0f} MB; split it")
    if b"\0" in raw:
        line = raw[: raw.index(b"\0")].count(b"\n") + 1
        raise _whole_file(file, "the file holds NUL bytes", "Save it as plain UTF-8 text", line)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        fault = _whole_file(file, "the file is not UTF-8 text", "Save it again with the encoding UTF-8", line)
        raise fault from error


def _whole_file(file: str, what: str, fix: str, line: int = 1) -> ChartFaults:
    return ChartFaults((Fault(what, fix, line, 1, 1, "", file),))


def blank_remarks(text: str) -> str:
    """Replace ``<!-- remarks -->`` by blanks, so that every place stays where it was."""
    if "<!--" not in text:
        return text
    return REMARK.sub(lambda match: NOT_BREAK.sub(" ", match[0]), text)
