"""Who sang what in which key, and when: a file of its own beside singers and players."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

import yaml

from fifthwise.evening.nodes import Gathered, compose, fields, text_of
from fifthwise.theory import Key, KeyFault, read_key

__all__ = ["SungLine", "read_sung", "write_sung"]

LINE = ("singer", "song", "key", "day")
BEGIN = "Write 'sung:' with lines '- {singer: Name, song: songs/file.chart.md, key: G, day: 2026-12-05}'"


@dataclass(frozen=True, slots=True)
class SungLine:
    """One song as a singer sang it on one day.

    Attributes
    ----------
    song : str
        The chart's file, seen from the file that says so.
    line : int
        Where it stands in its file.
    """

    singer: str
    song: str
    key: Key
    on: date
    line: int = 0


def write_sung(lines: Iterable[SungLine]) -> str:
    """Write who sang what; ``read_sung`` reads the same from it."""
    found = [
        {"singer": each.singer, "song": each.song, "key": str(each.key), "day": each.on} for each in lines
    ]
    # Without a width, long names would be broken over lines.
    return yaml.safe_dump(
        {"sung": found}, allow_unicode=True, sort_keys=False, default_flow_style=None, width=float("inf")
    )


def read_sung(text: str, file: str = "sung") -> tuple[SungLine, ...]:
    """Read who sang what.

    Raises
    ------
    EveningFaults
        Everything that is wrong with it.
    """
    gathered = Gathered(text, file)
    root = compose(text, "list of what was sung", BEGIN, gathered)
    parts = {name: node for name, _, node in fields(root, ("sung",), "what was sung", gathered)}
    node = parts.get("sung")
    lines: list[SungLine | None] = []
    if isinstance(node, yaml.SequenceNode):
        lines = [_line(entry, gathered) for entry in node.value]
    else:
        gathered.add(node or root, "what was sung must be a list", BEGIN)
    gathered.raise_any()
    return tuple(line for line in lines if line is not None)


def _line(node: yaml.Node, gathered: Gathered) -> SungLine | None:
    found = {name: value for name, _, value in fields(node, LINE, "what was sung", gathered)}
    texts = {name: text_of(value, f"'{name}'", gathered) for name, value in found.items()}
    missing = [name for name in LINE if not texts.get(name)]
    if missing:
        gathered.add(node, f"what was sung has no {' and no '.join(missing)}", BEGIN)
        return None
    key, on = _key(texts["key"], found["key"], gathered), _day(texts["day"], found["day"], gathered)
    if key is None or on is None:
        return None
    return SungLine(texts["singer"], texts["song"], key, on, node.start_mark.line + 1)


def _key(text: str, node: yaml.Node, gathered: Gathered) -> Key | None:
    try:
        return read_key(text)
    except KeyFault as fault:
        gathered.add(node, fault.what, fault.fix)
        return None


def _day(text: str, node: yaml.Node, gathered: Gathered) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        gathered.add(node, f"there is no day '{text}'", "Write it as in '2026-12-05'")
        return None
