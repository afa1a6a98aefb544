"""How long a song lasts, worked out once: the same in every key."""

from functools import lru_cache

from fifthwise.chart import Chart, unfold

__all__ = ["seconds_of"]


@lru_cache(maxsize=256)  # each holds its chart
def seconds_of(chart: Chart) -> float:
    """How long a song lasts, in seconds, vamps played four times."""
    return unfold(chart).seconds
