"""YAML taken apart safely: plain nodes with their places, nothing constructed."""

import difflib
from collections.abc import Iterator
from typing import Protocol

import yaml

from fifthwise.chart import LARGEST_TEXT, Fault
from fifthwise.evening.errors import EveningFaults

__all__ = ["Gathered", "compose", "fields", "text_of"]

DEEPEST = 12


class Gathered:
    """Faults gathered while a file is read."""

    def __init__(self, text: str, file: str) -> None:
        self.lines, self.file = text.split("\n"), file
        self.faults: list[Fault] = []

    def add(self, node: yaml.Node, what: str, fix: str, mends: tuple[str, ...] = ()) -> None:
        """Note a fault at a node."""
        start, end = node.start_mark, node.end_mark
        length = end.column - start.column if end.line == start.line else 1
        self.add_at(start.line, start.column, max(1, length), what, fix, mends)

    def add_at(
        self, line: int, column: int, length: int, what: str, fix: str, mends: tuple[str, ...] = ()
    ) -> None:
        """Note a fault; ``line`` and ``column`` count from 0."""
        text = self.lines[line] if line < len(self.lines) else ""
        self.faults.append(Fault(what, fix, line + 1, column + 1, length, text, self.file, mends))

    def raise_any(self) -> None:
        """Raise what was gathered, if anything."""
        if self.faults:
            raise EveningFaults(tuple(sorted(self.faults, key=lambda f: (f.line, f.column))))


def compose(text: str, what: str, begin: str, gathered: Gathered) -> yaml.MappingNode:
    """Read YAML into nodes.

    Parameters
    ----------
    what, begin : str
        What the text should be, and how that begins.

    Raises
    ------
    EveningFaults
        The text is no YAML, is too large or too deep, uses aliases, or is no mapping.
    """
    if len(text) > LARGEST_TEXT:
        gathered.add_at(0, 0, 1, "the file is too large", "Keep it under 1 MB")
        gathered.raise_any()
    try:
        _check_events(text, gathered)
        root = yaml.compose(text, Loader=yaml.SafeLoader)
    except yaml.MarkedYAMLError as error:
        said = f"this is no YAML: {error.problem or error.context}"
        _add_at_mark(gathered, error.problem_mark or error.context_mark, said, "Check colons and indents")
    except yaml.YAMLError as error:
        said = f"this is no YAML: {str(error).splitlines()[0]}"
        gathered.add_at(0, 0, 1, said, "Save it as plain UTF-8 text")
    gathered.raise_any()
    if not isinstance(root, yaml.MappingNode):
        gathered.add_at(0, 0, 1, f"this is no {what}", begin)
        gathered.raise_any()
    assert isinstance(root, yaml.MappingNode)
    return root


def _check_events(text: str, gathered: Gathered) -> None:
    """Refuse aliases and deep nesting before anything is built."""
    depth = 0
    for event in yaml.parse(text, Loader=yaml.SafeLoader):
        if isinstance(event, yaml.AliasEvent):
            _add_at_mark(gathered, event.start_mark, "aliases ('*') are not used here", "Write the value out")
            return
        depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
        if depth > DEEPEST:
            _add_at_mark(gathered, event.start_mark, "this is nested too deep", "Write it flat")
            return


class _Mark(Protocol):
    """A place in the text, from either of the two parsers."""

    line: int
    column: int


def _add_at_mark(gathered: Gathered, mark: _Mark | None, what: str, fix: str) -> None:
    gathered.add_at(mark.line if mark else 0, mark.column if mark else 0, 1, what, fix)


def fields(
    node: yaml.Node, known: tuple[str, ...] | None, what: str, gathered: Gathered
) -> Iterator[tuple[str, yaml.ScalarNode, yaml.Node]]:
    """A mapping's entries as (name, name's node, value's node); notes unknown and repeated names."""
    if not isinstance(node, yaml.MappingNode):
        gathered.add(node, f"{what} must be fields", "Write 'field: text' lines, or {field: text}")
        return
    seen: set[str] = set()
    for key, value in node.value:
        name = key.value.strip() if isinstance(key, yaml.ScalarNode) else "?"
        if known is not None and name not in known:
            near = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
            fix = f"Did you mean '{near[0]}'?" if near else f"Known fields are {', '.join(known)}"
            gathered.add(key, f"unknown field '{name}' in {what}", fix, tuple(near))
        elif name in seen:
            gathered.add(key, f"'{name}' is given twice in {what}", "Keep one of them")
        else:
            seen.add(name)
            yield name, key, value


def text_of(node: yaml.Node, what: str, gathered: Gathered) -> str:
    """A node's plain text; anything else is a fault."""
    if isinstance(node, yaml.ScalarNode):
        return str(node.value).strip()
    gathered.add(node, f"{what} must be a text", "Write it on one line")
    return ""
