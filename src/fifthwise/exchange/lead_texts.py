"""Texts of other people's files as a chart can hold them: names of sections, words, lines of the head."""

import re

__all__ = ["cue_text", "line_text", "section_name"]

# At the end of a heading this says how often its section is played.
TIMES = re.compile(r"(?:(?<=\s)|^)x(?=[0-9]{1,2}\Z)")
COMMENT = re.compile(r"<!-*")


def line_text(text: str) -> str:
    """A text in one line, which opens no comment."""
    return " ".join(COMMENT.sub("", text).split())


def section_name(text: str) -> str:
    """The name of a section: no quotes, and no number of times."""
    return TIMES.sub("×", line_text(text.replace('"', "'")).lstrip("# "))


def cue_text(text: str) -> str:
    """Words for the players, between quotes and to nobody by name."""
    return line_text(text.replace('"', "'")).lstrip("@ ")
