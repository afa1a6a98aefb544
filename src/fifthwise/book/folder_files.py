"""The files of a folder that comes in: which there are, and why one cannot be read.

Links are followed only to files of the same folder; names that begin with a full stop are passed over.
"""

import os
import re
import stat
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from fifthwise.book.export_names import in_name_order
from fifthwise.chart import Fault, TextFaults, chart_text
from fifthwise.errors import FifthwiseError
from fifthwise.files import FileFault, read_bytes

__all__ = ["CHART", "SET", "FailedFile", "FolderFiles", "as_faults", "find_files", "read_file"]

CHART, SET = ".chart.md", ".set.yaml"
LIST = re.compile(r"(singers|players|sung(-[0-9]+)?)\.yaml")


@dataclass(frozen=True, slots=True)
class FailedFile:
    """A file that was not kept.

    Attributes
    ----------
    path : str
        Below the folder, with ``/`` between its parts.
    faults : tuple of Fault
        Everything that is wrong with it, at least one.
    """

    path: str
    faults: tuple[Fault, ...]


@dataclass(slots=True)
class FolderFiles:
    """What a folder holds, by paths below it.

    Attributes
    ----------
    lists : list of str
        Of people, and of what was sung.
    """

    root: Path
    charts: list[str] = field(default_factory=list)
    sets: list[str] = field(default_factory=list)
    lists: list[str] = field(default_factory=list)
    failed: list[FailedFile] = field(default_factory=list)

    @property
    def count(self) -> int:
        """How many files there are to read, or that cannot be."""
        return len(self.charts) + len(self.sets) + len(self.lists) + len(self.failed)


def find_files(folder: Path) -> FolderFiles:
    """Find the charts, sets and lists in a folder and the folders in it.

    Raises
    ------
    FileFault
        The folder is not there, or has no such file.
    """
    if not folder.is_dir():
        what = "this is a file, not a folder" if folder.exists() else "there is no such folder"
        raise FileFault(what, str(folder), "Name a folder with charts (.chart.md) in it")
    found = FolderFiles(folder.resolve())
    for at, inner, names in os.walk(found.root, onerror=lambda error: _note_shut(found, error)):
        inner[:] = sorted(name for name in inner if not name.startswith("."))
        for name in sorted([*names, *(name for name in inner if Path(at, name).is_symlink())]):
            if not name.startswith("."):
                _sort_in(found, Path(at, name))
    if not found.count:
        what = "there are no charts and no sets in this folder"
        raise FileFault(what, str(folder), f"Charts end in {CHART}, sets in {SET}")
    for paths in (found.charts, found.sets, found.lists):
        paths.sort(key=in_name_order)
    return found


def read_file(files: FolderFiles, path: str) -> str:
    """One file's text.

    Raises
    ------
    FifthwiseError
        It cannot be read, is too large, or is no text.
    """
    try:
        return chart_text(read_bytes(files.root / path), path)
    except OSError as error:
        what = f"the file cannot be read ({error.strerror or error})"
        raise FileFault(what, path, "Check the disk") from error


def as_faults(error: FifthwiseError, path: str) -> tuple[Fault, ...]:
    """All that an error says, as faults of one file."""
    if isinstance(error, TextFaults):
        return error.faults
    return (Fault(error.what, error.fix, 1, 1, 1, "", path),)


def _sort_in(found: FolderFiles, path: Path) -> None:
    shown = path.relative_to(found.root).as_posix()
    kind = _kind(found, shown)
    if kind is None and not path.is_dir():
        return
    wrong = _wrong(found.root, path)
    if wrong:
        shown = shown.encode("utf-8", "backslashreplace").decode()
        found.failed.append(FailedFile(shown, (Fault(*wrong, 1, 1, 1, "", shown),)))
    elif kind is not None:
        kind.append(shown)


def _kind(found: FolderFiles, shown: str) -> list[str] | None:
    if shown.endswith(CHART):
        return found.charts
    if shown.endswith(SET):
        return found.sets
    return found.lists if LIST.fullmatch(shown) else None


def _wrong(root: Path, path: Path) -> tuple[str, str] | None:
    """What is wrong with a name before anything is read, and its mend."""
    checks: tuple[tuple[Callable[[], bool], str, str], ...] = (
        (lambda: not _is_text(str(path)), "the name is not UTF-8", "Rename the file"),
        (lambda: not path.exists(), "this is a link to what is not there", "Put the file in its place"),
        (
            lambda: not path.resolve().is_relative_to(root),
            "this is a link out of the folder",
            "Put the file itself in its place",
        ),
        (lambda: path.is_dir(), "this is a link to a folder", "Put the folder itself in its place"),
        (lambda: not stat.S_ISREG(path.stat().st_mode), "this is no file with a text", "Take it away"),
    )
    return next(((what, fix) for is_wrong, what, fix in checks if is_wrong()), None)


def _is_text(name: str) -> bool:
    try:
        name.encode()
    except UnicodeEncodeError:
        return False
    return True


def _note_shut(found: FolderFiles, error: OSError) -> None:
    path = Path(str(error.filename))
    shown = path.relative_to(found.root).as_posix().encode("utf-8", "backslashreplace").decode()
    what = f"this folder cannot be read ({error.strerror})"
    found.failed.append(FailedFile(shown, (Fault(what, "Check its permissions", 1, 1, 1, "", shown),)))
