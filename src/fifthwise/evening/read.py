"""An evening read from its ``.set.yaml``: every fault at once, all values as text."""

import difflib

import yaml

from fifthwise.evening.date import is_date
from fifthwise.evening.evening import Evening, SetSong
from fifthwise.evening.nodes import Gathered, compose, fields, text_of
from fifthwise.evening.read_people import players_of, singers_of
from fifthwise.evening.words import one_of, yes_or_no
from fifthwise.page import Paper
from fifthwise.theory import KeyFault, read_key

__all__ = ["PAPERS", "read_evening"]

TOP = ("evening", "date", "paper", "singers", "players", "songs")
SONG = ("chart", "singer", "key", "counts-in", "segue")
BEGIN = "Begin with 'evening: its name', then singers, players and songs"
PAPERS: tuple[Paper, ...] = ("a4", "letter")


def read_evening(text: str, file: str = "evening", *, unfinished: bool = False) -> Evening:
    """Read an evening.

    Parameters
    ----------
    unfinished : bool
        Whether it may be without songs: one that is still being put together.

    Raises
    ------
    EveningFaults
        Everything that is wrong with it.
    """
    gathered = Gathered(text, file)
    root = compose(text, "evening", BEGIN, gathered)
    parts = {name: node for name, _, node in fields(root, TOP, "an evening", gathered)}
    name = text_of(parts["evening"], "'evening'", gathered) if "evening" in parts else ""
    if not name:
        gathered.add_at(0, 0, 1, "the evening has no name", "Add a line 'evening: its name'")
    singers = singers_of(parts["singers"], gathered) if "singers" in parts else ()
    players = players_of(parts["players"], gathered) if "players" in parts else ()
    # Where singers are given and none could be read, whoever sings is one of those.
    unread = "singers" in parts and not singers and bool(gathered.faults)
    names = None if unread else tuple(singer.name for singer in singers)
    songs = _songs(parts.get("songs"), names, gathered, unfinished=unfinished)
    day = _date(parts["date"], gathered) if "date" in parts else None
    paper = one_of(parts["paper"], PAPERS, "paper", gathered) if "paper" in parts else "a4"
    gathered.raise_any()
    return Evening(name, day or None, singers, players, songs, paper)


def _date(node: yaml.Node, gathered: Gathered) -> str:
    """A date as written; only what looks like an ISO date has to be one."""
    text = text_of(node, "'date'", gathered)
    if not is_date(text):
        gathered.add(node, f"there is no day '{text}'", "Write it as in '2026-12-05', or in words")
    return text


def _songs(
    node: yaml.Node | None, singers: tuple[str, ...] | None, gathered: Gathered, *, unfinished: bool
) -> tuple[SetSong, ...]:
    if node is None:
        if not unfinished:
            fix = "Add 'songs:' with lines '- {chart: file.chart.md}'"
            gathered.add_at(0, 0, 1, "the evening has no songs", fix)
        return ()
    fix = "Write lines '- {chart: file.chart.md, singer: Name}'"
    if not node.value and not unfinished:
        gathered.add(node, "there are no songs yet", fix)
        return ()
    if not isinstance(node, yaml.SequenceNode):
        gathered.add(node, "the songs must be a list", fix)
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
    segue = yes_or_no(found["segue"], "segue", gathered) if "segue" in found else False
    line = node.start_mark.line + 1
    return SetSong(
        texts["chart"], singer, texts.get("key") or None, texts.get("counts-in") or None, segue, line
    )


def _check_key(text: str, node: yaml.Node, gathered: Gathered) -> None:
    try:
        read_key(text)
    except KeyFault as fault:
        gathered.add(node, fault.what, fault.fix)
