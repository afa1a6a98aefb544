"""The signs that chords in numbers, Roman numerals and letters share, and their other ways of writing."""

import re

from fifthwise.theory.note import plain_accidentals

__all__ = ["plain_signs", "read_base", "read_change"]

TRIAD = r"(?P<triad>min|mi|m(?!aj|a\d)|-|dim|o|ø|hdim|aug|\+)?"
BASE = r"(?P<base>(?:maj|Maj|ma|M)(?:13|11|9|7)|(?:13|9|7)sus(?!2)4?|69|6/9(?!\d)|sus2|sus4|sus|13|11|9|7|6)?"
TRIAD_SIGNS = {
    "min": "-", "mi": "-", "m": "-", "-": "-", "dim": "o", "o": "o", "hdim": "ø", "ø": "ø",
    "aug": "+", "+": "+",
}  # fmt: skip
BASE_SIGNS = {"6/9": "69", "7sus4": "7sus", "9sus4": "9sus", "13sus": "9sus", "13sus4": "9sus"}
SIGNS = str.maketrans({"°": "o", "Δ": "^", "△": "^", "–": "-", "−": "-", "Ø": "ø", "º": "o"})
TRIANGLE = re.compile(r"\^(13|11|9|7)?")
MAJOR_WORD = re.compile(r"(?:maj|Maj|ma|M)(?=\d)")


def plain_signs(text: str) -> str:
    """Write the signs that mean the same in one way: ♭ as b, ° as o, Δ as maj7, dashes as -."""
    return TRIANGLE.sub(lambda match: "maj" + (match[1] or "7"), plain_accidentals(text).translate(SIGNS))


def read_base(text: str | None) -> tuple[str, tuple[str, ...]]:
    """Give a base its name in the table of bases, and the change that goes with it."""
    if not text:
        return "", ()
    text = MAJOR_WORD.sub("maj", text)
    return BASE_SIGNS.get(text, text), ("13",) if text.startswith("13sus") else ()


def read_change(text: str) -> str:
    """Give a major seventh among the changes its one name; leave every other change."""
    return MAJOR_WORD.sub("maj", text)
