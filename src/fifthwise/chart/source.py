"""The text of a chart before it is read: decoding, size, remarks, and the list of faults."""

import re

from fifthwise.chart.errors import ChartFaults, Fault

__all__ = ["LARGEST_TEXT", "MOST_FAULTS", "FaultList", "blank_remarks", "chart_text"]

# A chart of 60 bars takes about 2 kB; this leaves room for a long evening in one file.
LARGEST_TEXT = 1_000_000
# A text with more faults than this is no chart; reading it to its end would only fill the screen.
MOST_FAULTS = 500
LONGEST_SAYING = 240
OPENS, CLOSES = "<!--", "-->"
NOT_BREAK = re.compile(r"[^\n]")


class FaultList:
    """Faults and notices gathered while one text is read."""

    def __init__(self, file: str, lines: list[str]) -> None:
        self.file, self.lines = file, lines
        self.faults: list[Fault] = []
        self.notices: list[Fault] = []
        self.places: set[tuple[int, int]] = set()
        self.natural = False  # whether a minor key writes 3 6 7 for b3 b6 b7

    @property
    def full(self) -> bool:
        """Whether there are so many faults that reading stops."""
        return len(self.faults) >= MOST_FAULTS

    def add(
        self, line: int, column: int, length: int, what: str, fix: str, mends: tuple[str, ...] = ()
    ) -> None:
        """Note a fault; ``line`` and ``column`` count from 1. Once the list is full, nothing is noted."""
        if not self.full:
            self.faults.append(self._fault(line, column, length, what, fix, mends))
            self.places.add((line, column))

    def close(self, line: int) -> None:
        """Say that the list is full, at the line where reading stopped."""
        what, fix = f"there are more than {MOST_FAULTS} faults", "Mend those before this line first"
        self.faults.append(self._fault(line, 1, 1, what, fix, ()))

    def tell(self, line: int, column: int, length: int, what: str, fix: str) -> None:
        """Note something that is read, but may have been meant otherwise."""
        if len(self.notices) < MOST_FAULTS:
            self.notices.append(self._fault(line, column, length, what, fix, ()))

    def _fault(
        self, line: int, column: int, length: int, what: str, fix: str, mends: tuple[str, ...]
    ) -> Fault:
        text = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Fault(_cut(what), _cut(fix), line, column, max(1, length), text, self.file, mends)


def _cut(saying: str) -> str:
    """Leave the middle out of a saying that quotes too much."""
    if len(saying) <= LONGEST_SAYING:
        return saying
    return f"{saying[: LONGEST_SAYING // 2]} … {saying[-LONGEST_SAYING // 2 :]}"


def chart_text(raw: bytes, file: str) -> str:
    """Decode a chart's bytes.

    Raises
    ------
    ChartFaults
        The file is too large, is no UTF-8 text, or holds NUL bytes.
    """
    if len(raw) > LARGEST_TEXT:
        size = f"the file has {len(raw) / 1e6:.1f} MB"
        fix = f"A chart may have {LARGEST_TEXT / 1e6:.0f} MB; split it"
        raise ChartFaults((Fault(size, fix, 1, 1, 1, "", file),))
    if b"\0" in raw:
        raise _undecodable(
            raw, raw.index(b"\0"), file, "the file holds NUL bytes", "Save it as plain UTF-8 text"
        )
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        what, fix = "the file is not UTF-8 text", "Save it again with the encoding UTF-8"
        raise _undecodable(raw, error.start, file, what, fix) from error


def _undecodable(raw: bytes, at: int, file: str, what: str, fix: str) -> ChartFaults:
    """A fault at a byte, its column counted in the characters before it."""
    before = raw[:at].rpartition(b"\n")[2].decode("utf-8-sig", errors="replace")
    line = raw.count(b"\n", 0, at) + 1
    return ChartFaults((Fault(what, fix, line, len(before) + 1, 1, "", file),))


def blank_remarks(lines: list[str], start: int, faults: FaultList) -> list[str]:
    """Replace ``<!-- remarks -->`` by blanks, so that every place stays where it was.

    Parameters
    ----------
    lines : list of str
        The whole text; what stands before line ``start`` is the head, which has no remarks.
    """
    text = "\n".join(lines[start:])
    parts, at = [], 0
    while (opened := text.find(OPENS, at)) >= 0:
        closed = text.find(CLOSES, opened + len(OPENS))
        if closed < 0:
            column = opened - text.rfind("\n", 0, opened)
            line = start + text.count("\n", 0, opened) + 1
            faults.add(line, column, len(OPENS), "the remark is not closed", f"End it with '{CLOSES}'")
            break
        end = closed + len(CLOSES)
        parts += [text[at:opened], NOT_BREAK.sub(" ", text[opened:end])]
        at = end
    if opened >= 0:  # not closed: only its own line is lost
        newline = text.find("\n", opened)
        parts.append(text[at:opened])
        at = newline if newline >= 0 else len(text)
    parts.append(text[at:])
    return lines[:start] + "".join(parts).split("\n")
