"""Texts taken apart into lines, ends included, and put together."""

import re
from collections.abc import Iterable

__all__ = ["joined", "lines_of"]

LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+")


def lines_of(text: str) -> list[str]:
    """The lines of a text, each with its end; the last may have none."""
    return LINE.findall(text)


def joined(parts: Iterable[str]) -> str:
    """One text of several; what lacks a line's end gets one where more comes after it."""
    text = ""
    kept = [part for part in parts if part]
    for part in kept[:-1]:
        text += part if part.endswith(("\r", "\n")) else f"{part}\n"
    return text + "".join(kept[-1:])
