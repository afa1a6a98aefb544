"""A folder of output that can be made again: only what fifthwise wrote itself is replaced."""

import hashlib
import json
from collections.abc import Iterable, Mapping
from pathlib import Path, PurePosixPath

from fifthwise.files.file import FileFault, write_file

__all__ = ["MANIFEST", "check_folder", "write_folder"]

MANIFEST = ".fifthwise.json"
MOST_SHOWN = 3


def write_folder(folder: Path, files: Mapping[str, bytes], *, force: bool = False) -> None:
    """Write files into a folder, replacing the earlier output and taking away what is no longer made.

    Parameters
    ----------
    files : mapping of str to bytes
        Contents by path below the folder, with ``/`` between its parts.
    force : bool
        Whether files that fifthwise did not write, or that were changed since, may be replaced.

    Raises
    ------
    FileFault
        The folder holds something else, or cannot be written to; nothing has been changed then.
    """
    check_folder(folder, files, force=force)
    ours = _read_manifest(folder)
    _make_folders(folder, files)
    written = {name: hashlib.sha256(content).hexdigest() for name, content in files.items()}
    for name, content in files.items():
        if ours.get(name) != written[name] or not (folder / name).exists():
            write_file(folder / name, content)
    write_file(folder / MANIFEST, _manifest(written))
    for name in ours.keys() - written.keys():
        if _unchanged(folder / name, ours[name]):
            (folder / name).unlink()


def _manifest(written: Mapping[str, str]) -> bytes:
    record = {"made by": "fifthwise", "files": dict(sorted(written.items()))}
    return (json.dumps(record, indent=1) + "\n").encode()


def _read_manifest(folder: Path) -> dict[str, str]:
    """What an earlier run wrote: digests by path. A manifest that cannot be read counts as none."""
    try:
        files = json.loads((folder / MANIFEST).read_text("utf-8"))["files"]
        return {name: digest for name, digest in files.items() if _stays_inside(name)}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


def _stays_inside(name: str) -> bool:
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts


def check_folder(folder: Path, names: Iterable[str], *, force: bool) -> None:
    """Look before anything is made whether the files may be written.

    Raises
    ------
    FileFault
        The folder is a file, or holds something that fifthwise did not write.
    """
    if force:
        return
    ours = _read_manifest(folder)
    if folder.exists() and not folder.is_dir():
        raise FileFault("this is a file, not a folder", str(folder), "Name a folder")
    if folder.exists() and not ours and any(folder.iterdir()):
        what = "the folder holds files that fifthwise did not write"
        raise FileFault(what, str(folder), "Name an empty one, or add --force")
    there = (name for name in names if (folder / name).exists())
    changed = sorted(name for name in there if not _unchanged(folder / name, ours.get(name, "")))
    if changed:
        shown = ", ".join(changed[:MOST_SHOWN]) + (" …" if len(changed) > MOST_SHOWN else "")
        what = f"{shown} was changed since fifthwise wrote it, or is not its own"
        raise FileFault(what, str(folder), "Keep it, or add --force")


def _unchanged(path: Path, digest: str) -> bool:
    return path.is_file() and hashlib.sha256(path.read_bytes()).hexdigest() == digest


def _make_folders(folder: Path, files: Mapping[str, bytes]) -> None:
    try:
        for name in ("", *files):
            (folder / name if not name else (folder / name).parent).mkdir(parents=True, exist_ok=True)
    except OSError as error:
        what = f"the folder cannot be made ({error.strerror})"
        raise FileFault(what, str(folder), "Name another, or check its permissions") from error
