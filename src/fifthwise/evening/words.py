"""Values that are one of a few words."""

import difflib
from typing import TypeVar

import yaml

from fifthwise.evening.nodes import Gathered, text_of

__all__ = ["one_of", "yes_or_no"]

Word = TypeVar("Word", bound=str)
YES, NO = ("yes", "true", "on"), ("no", "false", "off")


def one_of(node: yaml.Node, known: tuple[Word, ...], what: str, gathered: Gathered) -> Word:
    """The word of ``known`` that a node says, whatever its case; anything else is a fault."""
    text = text_of(node, what, gathered).lower()
    if text in known:
        return known[known.index(text)]
    near = [str(word) for word in difflib.get_close_matches(text, known, n=1)]
    fix = f"Did you mean '{near[0]}'?" if near else f"Write {', '.join(known)}"
    gathered.add(node, f"'{text}' is no {what}", fix, tuple(near))
    return known[0]


def yes_or_no(node: yaml.Node, what: str, gathered: Gathered) -> bool:
    """Whether a node says yes; what is neither yes nor no is a fault."""
    text = text_of(node, what, gathered).lower()
    if text not in YES + NO:
        gathered.add(node, f"'{text}' is neither yes nor no", f"Write '{what}: yes' or leave it out")
    return text in YES
