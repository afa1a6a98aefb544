"""One file: read whole up to a bound, written whole or not at all."""

import os
import tempfile
from pathlib import Path

from fifthwise.chart import LARGEST_TEXT
from fifthwise.errors import FifthwiseError

__all__ = ["FileFault", "read_bytes", "write_file"]


class FileFault(FifthwiseError):
    """A file that cannot be read or written."""


def read_bytes(path: Path, most: int = LARGEST_TEXT) -> bytes:
    """Read a file of at most ``most`` bytes; a longer one is refused unread.

    Raises
    ------
    FileFault
        It is not there, may not be read, or is too large.
    """
    try:
        with path.open("rb") as file:
            _check_size(path, most)
            return file.read(most + 1)
    except IsADirectoryError as error:
        raise FileFault("this is a folder", str(path), "Name a file in it") from error
    except FileNotFoundError as error:
        raise FileFault("there is no such file", str(path), "Check its name") from error
    except PermissionError as error:
        raise FileFault("this file may not be read", str(path), "Check its permissions") from error


def _check_size(path: Path, most: int) -> None:
    size = path.stat().st_size
    if size > most:
        fix = f"A file may have {most / 1e6:.0f} MB; split it"
        raise FileFault(f"the file has {size / 1e6:.1f} MB", str(path), fix)


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
