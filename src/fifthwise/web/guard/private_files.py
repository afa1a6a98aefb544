"""Small files that nobody else on this machine may read: keys, the secret, the password's hash.

Each is made whole under another name and then given its own, with 0600 from the start, so that neither a
crash nor a second server starting at the same time leaves half of one.
"""

import os
import stat
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from fifthwise.web.guard.errors import ExposedFile

__all__ = ["make_once", "read_private", "replace_private"]

OTHERS = stat.S_IRWXG | stat.S_IRWXO


def make_once(path: Path, make: Callable[[], bytes]) -> bytes:
    """Read a private file, making it first where there is none.

    Raises
    ------
    ExposedFile
        Others may read what is there.
    """
    found = read_private(path)
    if found is not None:
        return found
    name = _write_beside(path, make())
    try:
        # A link, unlike a rename, does not replace what another server has just made.
        os.link(name, path)
    except FileExistsError:
        pass
    except OSError:
        # A file system without links.
        name.replace(path)
    name.unlink(missing_ok=True)
    made = read_private(path)
    assert made is not None
    return made


def replace_private(path: Path, content: bytes) -> None:
    """Write a private file in place of the one before, if any."""
    _write_beside(path, content).replace(path)


def read_private(path: Path) -> bytes | None:
    """Read a private file; ``None`` where there is none.

    Raises
    ------
    ExposedFile
        Others may read it, so it may be known already.
    """
    try:
        with path.open("rb") as file:
            # Elsewhere the mode says nothing about who may read.
            if os.name == "posix" and os.fstat(file.fileno()).st_mode & OTHERS:
                fix = "Delete it and start again, and a new one is made"
                raise ExposedFile("others on this machine may read or change this file", str(path), fix)
            return file.read()
    except FileNotFoundError:
        return None


def _write_beside(path: Path, content: bytes) -> Path:
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    except BaseException:
        with suppress(OSError):
            Path(name).unlink()
        raise
    return Path(name)
