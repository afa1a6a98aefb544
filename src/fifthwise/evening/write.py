"""An evening written as the text that it is read from.

What another reader of YAML could take for something else than text (``yes``, ``1e3``, ``~``) is quoted, and
so is everything beside plain words.
"""

import re
from collections.abc import Iterable, Mapping

import yaml

from fifthwise.evening.date import ISO_DATE
from fifthwise.evening.evening import Evening, Player, SetSong
from fifthwise.voice import Singer, write_singer

__all__ = ["write_evening", "write_players", "write_singers"]

TEXT, YES, DATE = (f"tag:yaml.org,2002:{name}" for name in ("str", "bool", "timestamp"))
# Words of letters, with what names, files and notes have besides; YAML itself then quotes 'yes' and 'null'.
PLAIN = re.compile(r"[^\W\d_]([\w .#/-]*[\w.#])?")


def write_evening(evening: Evening) -> str:
    """Write an evening; ``read_evening`` reads the same from it."""
    entries: dict[str, yaml.Node] = {"evening": _text(evening.name)}
    if evening.date is not None:
        is_day = ISO_DATE.fullmatch(evening.date)
        entries["date"] = yaml.ScalarNode(DATE, evening.date) if is_day else _text(evening.date)
    entries["paper"] = _text(evening.paper)
    if evening.singers:
        entries["singers"] = _singers(evening.singers)
    if evening.players:
        entries["players"] = _players(evening.players)
    songs = list(map(_song, evening.songs))
    entries["songs"] = yaml.SequenceNode("tag:yaml.org,2002:seq", songs, flow_style=not songs)
    return _written(_mapping(entries.items()))


def write_singers(singers: tuple[Singer, ...]) -> str:
    """Write singers as a file of their own; ``read_singers`` reads the same from it."""
    return _written(_singers(singers))


def write_players(players: tuple[Player, ...]) -> str:
    """Write players as a file of their own; ``read_players`` reads the same from it."""
    return _written(_players(players))


def _written(node: yaml.Node) -> str:
    # Without a width, long names would be broken over lines.
    return yaml.serialize(node, Dumper=yaml.SafeDumper, allow_unicode=True, width=float("inf"))


def _singers(singers: tuple[Singer, ...]) -> yaml.MappingNode:
    return _mapping((singer.name, _fields(write_singer(singer))) for singer in singers)


def _players(players: tuple[Player, ...]) -> yaml.MappingNode:
    return _mapping((player.name, _player(player)) for player in players)


def _player(player: Player) -> yaml.MappingNode:
    show = player.show if player.show != player.part.show else None
    found = {"instrument": player.part.name, "level": player.level, "show": show}
    return _fields(found, yes="capo" if player.capo else None)


def _song(song: SetSong) -> yaml.MappingNode:
    found = {"chart": song.chart, "singer": song.singer, "key": song.key, "counts-in": song.counts_in}
    return _fields(found, yes="segue" if song.segue else None)


def _fields(found: Mapping[str, str | None], *, yes: str | None = None) -> yaml.MappingNode:
    """Fields on one line, without those that say nothing; ``yes`` is the one that is switched on."""
    node = _mapping((field, _text(value)) for field, value in found.items() if value is not None)
    if yes:
        node.value.append((_text(yes), yaml.ScalarNode(YES, "yes")))
    node.flow_style = True
    return node


def _mapping(entries: Iterable[tuple[str, yaml.Node]]) -> yaml.MappingNode:
    pairs = [(_text(name), node) for name, node in entries]
    return yaml.MappingNode("tag:yaml.org,2002:map", pairs, flow_style=not pairs)


def _text(text: str) -> yaml.ScalarNode:
    return yaml.ScalarNode(TEXT, text, style=None if PLAIN.fullmatch(text) else '"')
