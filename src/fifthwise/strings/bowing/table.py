"""The table of bowings as it lies in the package."""

import tomllib
from functools import cache
from typing import Any

from fifthwise.strings.table import table_text

__all__ = ["bowing_table"]


@cache
def bowing_table() -> dict[str, Any]:
    """``bowings.toml``, whose head says what stands in it."""
    return tomllib.loads(table_text("bowing/bowings.toml"))
