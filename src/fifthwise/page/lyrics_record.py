"""The lyric sheet as plain values, as ``lyrics.typ`` reads it."""

from dataclasses import asdict
from typing import Any, Literal

from fifthwise.page.lyrics_model import LyricSheet

__all__ = ["LyricShow", "lyrics_record"]

LyricShow = Literal["numbers", "letters", "both"]


def lyrics_record(sheet: LyricSheet, *, show: LyricShow = "numbers") -> dict[str, Any]:
    """Write a lyric sheet as text, numbers, lists and nested dicts.

    ``kind`` is ``lyrics``. Every block says whether it is sung, every line whether it has words, every
    piece how far its chord may reach.
    """
    record: dict[str, Any] = {"kind": "lyrics", "show": show, **asdict(sheet)}
    for block, written in zip(sheet.blocks, record["blocks"], strict=True):
        written |= {"sung": block.is_sung, "length": block.length}
        for line, written_line in zip(block.lines, written["lines"], strict=True):
            written_line |= {"has_words": line.has_words, "bars": line.bars}
            for room, piece in zip(line.rooms, written_line["pieces"], strict=True):
                piece["room"] = room
    return record
