"""Files read and written for the commands: charts in, pages out, nothing half-written."""

import os
import sys
import tempfile
from pathlib import Path

from fifthwise.chart import LARGEST_TEXT, Chart, ChartFaults, Reading, chart_text, read_chart, write_chart
from fifthwise.errors import FifthwiseError

__all__ = [
    "FileFault",
    "load_chart",
    "read_bytes",
    "read_text",
    "tell_notices",
    "tell_unprintable",
    "write_file",
]


class FileFault(FifthwiseError):
    """A file that cannot be read or written."""


def read_bytes(path: Path) -> bytes:
    """Read a file of at most ``LARGEST_TEXT`` bytes; a longer one is refused unread.

    Raises
    ------
    FileFault
        It is not there, may not be read, or is too large.
    """
    try:
        with path.open("rb") as file:
            _check_size(path)
            return file.read(LARGEST_TEXT + 1)
    except IsADirectoryError as error:
        raise FileFault("this is a folder", str(path), "Name a file in it") from error
    except FileNotFoundError as error:
        raise FileFault("there is no such file", str(path), "Check its name") from error
    except PermissionError as error:
        raise FileFault("this file may not be read", str(path), "Check its permissions") from error


def _check_size(path: Path) -> None:
    size = path.stat().st_size
    if size > LARGEST_TEXT:
        fix = f"A file may have {LARGEST_TEXT / 1e6:.0f} MB; split it"
        raise FileFault(f"the file has {size / 1e6:.1f} MB", str(path), fix)


def read_text(path: Path) -> str:
    """Read a text file in UTF-8; ``-`` is the standard input.

    Raises
    ------
    FileFault
        It cannot be read.
    ChartFaults
        It is no UTF-8 text.
    """
    if str(path) == "-":
        return chart_text(sys.stdin.buffer.read(LARGEST_TEXT + 1), "standard input")
    return chart_text(read_bytes(path), path.name)


def load_chart(path: Path) -> Chart:
    """Read a chart and tell its notices on the error stream.

    Raises
    ------
    ChartFaults
        Everything that is wrong with it.
    """
    reading = read_chart(read_text(path), path.name)
    if reading.faults:
        raise ChartFaults(reading.faults)
    tell_notices(reading)
    return reading.chart


def tell_notices(reading: Reading) -> None:
    """Say what may have been meant otherwise."""
    for notice in reading.notices:
        print(f"notice: {notice}", file=sys.stderr)


def tell_unprintable(*charts: Chart) -> None:
    """Say which characters print has to leave out; a page for a screen shows them."""
    from fifthwise.page import unprintable

    for chart in charts:
        missing = unprintable(write_chart(chart))
        if missing:
            shown = " ".join(missing)
            print(f"notice: '{chart.title}': print has no {shown}; '?' stands for it", file=sys.stderr)


def write_file(path: Path, content: bytes) -> None:
    """Write a file under a temporary name beside it, then rename it.

    Raises
    ------
    FileFault
        The folder is missing or may not be written to.
    """
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    except FileNotFoundError as error:
        raise FileFault(
            "there is no such folder", str(path.parent), "Make it first, or name another"
        ) from error
    except OSError as error:
        raise FileFault(
            "the folder cannot be written to", str(path.parent), "Name another, or check it"
        ) from error
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(name).chmod(0o666 & ~_umask())
        Path(name).replace(path)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise FileFault(
            f"the file cannot be written ({error.strerror})", str(path), "Check the disk"
        ) from error


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
