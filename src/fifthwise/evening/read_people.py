"""Singers and players read from their mappings: in an evening, or each in a file of their own."""

import yaml

from fifthwise.evening.errors import PartFault
from fifthwise.evening.evening import Player
from fifthwise.evening.nodes import Gathered, compose, fields, text_of
from fifthwise.evening.parts import Part, part_of
from fifthwise.evening.words import one_of, yes_or_no
from fifthwise.page import Show
from fifthwise.strings import LEVELS
from fifthwise.voice import Singer, SingerFault, read_singer

__all__ = ["SHOWS", "players_of", "read_players", "read_singers", "singers_of"]

SINGER = ("usable", "comfort", "turns")
PLAYER = ("instrument", "level", "show", "capo")
SHOWS: tuple[Show, ...] = ("numbers", "letters", "both", "roman")


def read_singers(text: str, file: str = "singers") -> tuple[Singer, ...]:
    """Read singers from a file of their own: each name with its fields, as in an evening.

    Raises
    ------
    EveningFaults
        Everything that is wrong with it.
    """
    gathered = Gathered(text, file)
    begin = "Write lines 'Name: {usable: F3-D5, comfort: A3-Bb4}', or {} for nobody"
    singers = singers_of(compose(text, "list of singers", begin, gathered), gathered)
    gathered.raise_any()
    return singers


def read_players(text: str, file: str = "players") -> tuple[Player, ...]:
    """Read players from a file of their own: each name with its fields, as in an evening.

    Raises
    ------
    EveningFaults
        Everything that is wrong with it.
    """
    gathered = Gathered(text, file)
    begin = "Write lines 'Name: {instrument: violin}', or {} for nobody"
    players = players_of(compose(text, "list of players", begin, gathered), gathered)
    gathered.raise_any()
    return players


def singers_of(node: yaml.Node, gathered: Gathered) -> tuple[Singer, ...]:
    """The singers that a mapping names."""
    singers = []
    for name, key, value in fields(node, None, "the singers", gathered):
        ranges = {
            f: text_of(v, f"'{f}'", gathered) for f, _, v in fields(value, SINGER, f"singer {name}", gathered)
        }
        try:
            singers.append(read_singer(name, **ranges))
        except SingerFault as fault:
            gathered.add(_entry(value, fault.where.rpartition(", ")[2]) or key, fault.what, fault.fix)
    return tuple(singers)


def _entry(node: yaml.Node, name: str) -> yaml.Node | None:
    """The value of one field of a mapping."""
    if isinstance(node, yaml.MappingNode):
        return next((value for key, value in node.value if key.value == name), None)
    return None


def players_of(node: yaml.Node, gathered: Gathered) -> tuple[Player, ...]:
    """The players that a mapping names."""
    players = []
    for name, key, value in fields(node, None, "the players", gathered):
        found = {field: node for field, _, node in fields(value, PLAYER, f"player {name}", gathered)}
        if not name:
            gathered.add(key, "a player has no name", "Write what the band calls the player")
        if "instrument" not in found:
            gathered.add(key, f"player {name} has no instrument", "Add 'instrument: violin'")
            continue
        try:
            part = part_of(text_of(found["instrument"], "'instrument'", gathered))
        except PartFault as fault:
            gathered.add(found["instrument"], fault.what, fault.fix)
            continue
        show = one_of(found["show"], SHOWS, "show", gathered) if "show" in found else part.show
        level = one_of(found["level"], LEVELS, "level", gathered) if "level" in found else None
        capo = _capo(found["capo"], part, gathered) if "capo" in found else False
        players.append(Player(name, part, level, show, capo))
    return tuple(players)


def _capo(node: yaml.Node, part: Part, gathered: Gathered) -> bool:
    text = text_of(node, "'capo'", gathered).lower()
    if text.isdigit():
        gathered.add(node, "the fret is chosen for each song", "Write 'capo: yes', or leave it out")
        return False
    capo = yes_or_no(node, "capo", gathered)
    if capo and not part.capo:
        gathered.add(node, f"a {part.name} takes no capo", "Leave it out")
    return capo
