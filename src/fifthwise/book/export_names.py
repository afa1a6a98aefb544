"""File names for an export: each once, and the same again after the book came back from its files.

What shares a name is told apart by its own text, not by its number in the book; only where the text is the
same too does the number decide, and an import keeps that order.
"""

import re
import unicodedata
from collections.abc import Iterable

from fifthwise.evening import file_name

__all__ = ["export_names", "in_name_order"]

LONGEST = 150  # bytes; file systems take 255, and a temporary name is longer than its file's
# What Windows keeps for its devices, whatever follows the full stop.
DEVICES = ("con", "prn", "aux", "nul", *(f"{device}{n}" for device in ("com", "lpt") for n in range(10)))
NUMBERS = re.compile(r"(\d+)")


def export_names(named: Iterable[tuple[int, str, str]]) -> dict[int, str]:
    """A file name without its ending for each of one kind.

    Parameters
    ----------
    named : iterable of (int, str, str)
        Number in the book, name or title, and text.

    Returns
    -------
    dict
        Names by number.
    """
    order = sorted((_base(name), text, number) for number, name, text in named)
    used = set(DEVICES)
    names = {}
    counts: dict[str, int] = {}
    for base, _, number in order:
        count = counts.get(base, 1)
        name = base if count == 1 else f"{base}-{count}"
        while (found := unicodedata.normalize("NFC", name).casefold()) in used:
            count += 1
            name = f"{base}-{count}"
        counts[base] = count + 1
        used.add(found)
        names[number] = name
    return names


def in_name_order(path: str) -> tuple[tuple[str | int, ...], str]:
    """What to sort files by, so that ``a``, ``a-2`` and ``a-10`` stand as they were numbered."""
    stem = path.partition(".")[0]
    # Texts and numbers take turns, so what is compared is always of one kind.
    return tuple(int(part) if at % 2 else part for at, part in enumerate(NUMBERS.split(stem))), path


def _base(name: str) -> str:
    return file_name(name).encode()[:LONGEST].decode(errors="ignore").strip("-_") or "page"
