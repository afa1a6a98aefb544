"""The tables that the room carries, read where the package lies."""

import pkgutil

__all__ = ["table_text"]


def table_text(name: str) -> str:
    """The text of a table of this room.

    ``importlib.resources`` would do, but brings ``tempfile`` and ``random`` into a room that is pure.
    """
    found = pkgutil.get_data("fifthwise.strings", name)
    assert found is not None
    return found.decode("utf-8")
