"""An evening read from its ``.set.yaml``: every fault at once, all values as text."""

import difflib
import re
from datetime import date
from typing import TypeVar

import yaml

from fifthwise.evening.errors import PartFault
from fifthwise.evening.evening import Evening, Player, SetSong
from fifthwise.evening.nodes import Gathered, compose, fields, text_of
from fifthwise.evening.parts import Part, part_of
from fifthwise.page import Paper, Show
from fifthwise.theory import KeyFault, read_key
from fifthwise.voice import Singer, SingerFault, read_singer

__all__ = ["LEVELS", "SHOWS", "read_evening"]

TOP = ("evening", "date", "paper", "singers", "players", "songs")
SINGER = ("usable", "comfort", "turns")
PLAYER = ("instrument", "level", "show", "capo")
SONG = ("chart", "singer", "key", "counts-in", "segue")
LEVELS = ("first", "half", "third", "all")
SHOWS: tuple[Show, ...] = ("numbers", "letters", "both", "roman")
PAPERS: tuple[Paper, ...] = ("a4", "letter")
Word = TypeVar("Word", bound=str)
ISO_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
YES, NO = ("yes", "true", "on"), ("no", "false", "off")


def read_evening(text: str, file: str = "evening") -> Evening:
    """Read an evening.

    Raises
    ------
    EveningFaults
        Everything that is wrong with it.
    """
    gathered = Gathered(text, file)
    parts = {
        name: (key, node) for name, key, node in fields(compose(text, gathered), TOP, "an evening", gathered)
    }
    name = text_of(parts["evening"][1], "'evening'", gathered) if "evening" in parts else ""
    if not name:
        gathered.add_at(0, 0, 1, "the evening has no name", "Add a line 'evening: its name'")
    singers = _singers(parts["singers"][1], gathered) if "singers" in parts else ()
    players = _players(parts["players"][1], gathered) if "players" in parts else ()
    if "songs" not in parts:
        gathered.add_at(
            0, 0, 1, "the evening has no songs", "Add 'songs:' with lines '- {chart: file.chart.md}'"
        )
    names = tuple(singer.name for singer in singers) if singers or "singers" not in parts else None
    songs = _songs(parts["songs"][1], names, gathered) if "songs" in parts else ()
    day = _date(parts["date"][1], gathered) if "date" in parts else None
    paper = _one_of(parts["paper"][1], PAPERS, "paper", gathered) if "paper" in parts else "a4"
    gathered.raise_any()
    return Evening(name, day or None, singers, players, songs, paper)


def _date(node: yaml.Node, gathered: Gathered) -> str:
    """A date as written; only what looks like an ISO date has to be one."""
    text = text_of(node, "'date'", gathered)
    if ISO_DATE.fullmatch(text):
        try:
            date.fromisoformat(text)
        except ValueError:
            gathered.add(node, f"there is no day '{text}'", "Write it as in '2026-12-05', or in words")
    return text


def _one_of(node: yaml.Node, known: tuple[Word, ...], what: str, gathered: Gathered) -> Word:
    text = text_of(node, what, gathered).lower()
    if text in known:
        return known[known.index(text)]
    near = [str(word) for word in difflib.get_close_matches(text, known, n=1)]
    fix = f"Did you mean '{near[0]}'?" if near else f"Write {', '.join(known)}"
    gathered.add(node, f"'{text}' is no {what}", fix, tuple(near))
    return known[0]


def _yes(node: yaml.Node, what: str, gathered: Gathered) -> bool:
    text = text_of(node, what, gathered).lower()
    if text not in YES + NO:
        gathered.add(node, f"'{text}' is neither yes nor no", f"Write '{what}: yes' or leave it out")
    return text in YES


def _singers(node: yaml.Node, gathered: Gathered) -> tuple[Singer, ...]:
    singers = []
    for name, key, value in fields(node, None, "the singers", gathered):
        ranges = {
            f: text_of(v, f"'{f}'", gathered) for f, _, v in fields(value, SINGER, f"singer {name}", gathered)
        }
        try:
            singers.append(
                read_singer(
                    name,
                    usable=ranges.get("usable"),
                    comfort=ranges.get("comfort"),
                    turns=ranges.get("turns"),
                )
            )
        except SingerFault as fault:
            gathered.add(_entry(value, fault.where.rpartition(", ")[2]) or key, fault.what, fault.fix)
    return tuple(singers)


def _entry(node: yaml.Node, name: str) -> yaml.Node | None:
    """The value of one field of a mapping."""
    if isinstance(node, yaml.MappingNode):
        return next((value for key, value in node.value if key.value == name), None)
    return None


def _players(node: yaml.Node, gathered: Gathered) -> tuple[Player, ...]:
    players = []
    for name, key, value in fields(node, None, "the players", gathered):
        found = {field: node for field, _, node in fields(value, PLAYER, f"player {name}", gathered)}
        if "instrument" not in found:
            gathered.add(key, f"player {name} has no instrument", "Add 'instrument: violin'")
            continue
        try:
            part = part_of(text_of(found["instrument"], "'instrument'", gathered))
        except PartFault as fault:
            gathered.add(found["instrument"], fault.what, fault.fix)
            continue
        show = _one_of(found["show"], SHOWS, "show", gathered) if "show" in found else part.show
        level = _one_of(found["level"], LEVELS, "level", gathered) if "level" in found else None
        capo = _capo(found["capo"], part, gathered) if "capo" in found else False
        players.append(Player(name, part, level, show, capo))
    return tuple(players)


def _capo(node: yaml.Node, part: Part, gathered: Gathered) -> bool:
    text = text_of(node, "'capo'", gathered).lower()
    if text.isdigit():
        gathered.add(node, "the fret is chosen for each song", "Write 'capo: yes', or leave it out")
    elif _yes(node, "capo", gathered) and not part.capo:
        gathered.add(node, f"a {part.name} takes no capo", "Leave it out")
    return text in YES and part.capo


def _songs(node: yaml.Node, singers: tuple[str, ...] | None, gathered: Gathered) -> tuple[SetSong, ...]:
    if not isinstance(node, yaml.SequenceNode) or not node.value:
        empty = not node.value
        what = "there are no songs yet" if empty else "the songs must be a list"
        gathered.add(node, what, "Write lines '- {chart: file.chart.md, singer: Name}'")
        return ()
    return tuple(song for entry in node.value if (song := _song(entry, singers, gathered)) is not None)


def _song(node: yaml.Node, singers: tuple[str, ...] | None, gathered: Gathered) -> SetSong | None:
    found = {name: value for name, _, value in fields(node, SONG, "a song", gathered)}
    if "chart" not in found:
        gathered.add(node, "the song has no chart", "Add 'chart: file.chart.md'")
        return None
    texts = {name: text_of(value, f"'{name}'", gathered) for name, value in found.items()}
    singer = texts.get("singer") or None
    if singer and singers is not None and singer not in singers:
        near = difflib.get_close_matches(singer, singers, n=1)
        fix = (
            f"Did you mean '{near[0]}'?"
            if near
            else f"Add '{singer}' to the singers, with a usable and a comfort range"
        )
        gathered.add(found["singer"], f"no singer is named '{singer}'", fix, tuple(near))
    if texts.get("key"):
        _check_key(texts["key"], found["key"], gathered)
    segue = _yes(found["segue"], "segue", gathered) if "segue" in found else False
    line = node.start_mark.line + 1
    return SetSong(
        texts["chart"], singer, texts.get("key") or None, texts.get("counts-in") or None, segue, line
    )


def _check_key(text: str, node: yaml.Node, gathered: Gathered) -> None:
    try:
        read_key(text)
    except KeyFault as fault:
        gathered.add(node, fault.what, fault.fix)
