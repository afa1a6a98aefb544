"""The JSON Schema of a song, and whether a value fits it.

Of JSON Schema 2020-12 those words are known that the schema uses; another is a slip of ours.
"""

import json
import re
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

__all__ = ["Misfit", "misfit", "song_schema"]

LONGEST_SHOWN = 40
TYPES: dict[str, tuple[type, str]] = {
    "object": (dict, "an object"),
    "array": (list, "a list"),
    "string": (str, "a text"),
    "integer": (int, "a whole number"),
}
SAID = frozenset({"$schema", "$defs", "title", "description"})  # words that allow and refuse nothing

Misfit = tuple[str, str]
"""Where a value does not fit, as a JSON pointer (RFC 6901), and what is wrong there."""

Check = Callable[[Any, Any, dict[str, Any], str], Iterator[Misfit]]


@cache
def song_schema() -> dict[str, Any]:
    """The schema that ``docs/song.schema.json`` publishes."""
    from importlib import resources  # brings half of the standard library along

    file = resources.files("fifthwise.exchange.song_json") / "song.schema.json"
    read: dict[str, Any] = json.loads(file.read_text("utf-8"))
    return read


def misfit(value: Any, schema: dict[str, Any] | None = None, at: str = "") -> Misfit | None:
    """The first place where a value does not fit; ``None`` where it fits."""
    return next(_misfits(value, song_schema() if schema is None else schema, at), None)


def _misfits(value: Any, schema: dict[str, Any], at: str) -> Iterator[Misfit]:
    for word, wanted in schema.items():
        if word not in SAID:
            yield from CHECKS[word](value, wanted, schema, at)


def _ref(value: Any, wanted: str, _: dict[str, Any], at: str) -> Iterator[Misfit]:
    yield from _misfits(value, song_schema()["$defs"][wanted.removeprefix("#/$defs/")], at)


def _type(value: Any, wanted: str, _: dict[str, Any], at: str) -> Iterator[Misfit]:
    kind, said = TYPES[wanted]
    if not isinstance(value, kind) or isinstance(value, bool):
        yield at, f"{_shown(value)} is not {said}"


def _const(value: Any, wanted: Any, _: dict[str, Any], at: str) -> Iterator[Misfit]:
    if value != wanted or type(value) is not type(wanted):
        yield at, f"{_shown(value)} is not {_shown(wanted)}"


def _enum(value: Any, wanted: list[str], _: dict[str, Any], at: str) -> Iterator[Misfit]:
    if value not in wanted:
        yield at, f"{_shown(value)} is none of {', '.join(wanted)}"


def _pattern(value: Any, wanted: str, _: dict[str, Any], at: str) -> Iterator[Misfit]:
    if isinstance(value, str) and not re.fullmatch(wanted, value):
        yield at, f"{_shown(value)} is not written as {wanted}"


def _bound(size: Callable[[Any], int], kinds: tuple[type, ...], *, least: bool, named: str) -> Check:
    def check(value: Any, wanted: int, _: dict[str, Any], at: str) -> Iterator[Misfit]:
        fits = isinstance(value, kinds) and not isinstance(value, bool)
        if fits and (size(value) < wanted if least else size(value) > wanted):
            yield at, f"{_shown(value)} has {'less' if least else 'more'} than {wanted}{named}"

    return check


def _required(value: Any, wanted: list[str], _: dict[str, Any], at: str) -> Iterator[Misfit]:
    if isinstance(value, dict):
        yield from ((at, f"'{name}' is missing") for name in wanted if name not in value)


def _properties(value: Any, wanted: dict[str, Any], _: dict[str, Any], at: str) -> Iterator[Misfit]:
    if isinstance(value, dict):
        for name, schema in wanted.items():
            if name in value:
                yield from _misfits(value[name], schema, f"{at}/{name}")


def _additional(value: Any, _wanted: bool, schema: dict[str, Any], at: str) -> Iterator[Misfit]:
    if isinstance(value, dict):
        yield from (
            (at, f"{_shown(name)} is not known") for name in value if name not in schema["properties"]
        )


def _items(value: Any, wanted: dict[str, Any], _: dict[str, Any], at: str) -> Iterator[Misfit]:
    if isinstance(value, list):
        for place, item in enumerate(value):
            yield from _misfits(item, wanted, f"{at}/{place}")


def _one_of(value: Any, wanted: list[dict[str, Any]], _: dict[str, Any], at: str) -> Iterator[Misfit]:
    if sum(misfit(value, schema, at) is None for schema in wanted) != 1:
        names = ", ".join(schema["required"][0] for schema in wanted)
        yield at, f"it needs one of {names}, and one only"


def _shown(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False)[: LONGEST_SHOWN * 2]
    return text if len(text) <= LONGEST_SHOWN else f"{text[:LONGEST_SHOWN]}…"


CHECKS: dict[str, Check] = {
    "$ref": _ref,
    "type": _type,
    "const": _const,
    "enum": _enum,
    "pattern": _pattern,
    "minLength": _bound(len, (str,), least=True, named=" signs"),
    "maxLength": _bound(len, (str,), least=False, named=" signs"),
    "minItems": _bound(len, (list,), least=True, named=" items"),
    "maxItems": _bound(len, (list,), least=False, named=" items"),
    "minimum": _bound(int, (int,), least=True, named=""),
    "maximum": _bound(int, (int,), least=False, named=""),
    "required": _required,
    "properties": _properties,
    "additionalProperties": _additional,
    "items": _items,
    "oneOf": _one_of,
}
