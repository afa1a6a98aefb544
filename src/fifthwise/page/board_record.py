"""A fingerboard's page as plain values, as ``board.typ`` reads it."""

from dataclasses import replace
from typing import Any

from fifthwise.page.board import board_head, board_svg
from fifthwise.page.board_view import BoardSubject, BoardView

__all__ = ["board_record"]


def board_record(subject: BoardSubject, view: BoardView = BoardView()) -> dict[str, Any]:  # noqa: B008
    """Write a fingerboard for print: its heading as text, the rest as a picture told in words."""
    title, told, account = board_head(subject, view)
    picture = board_svg(subject, replace(view, title=False))
    return {"kind": "board", "title": title, "told": list(told), "picture": picture, "words": account}
