"""How much each piece of evidence speaks for a key: the table that ``bench/key_finder.py`` trains."""

import pkgutil
import tomllib
from functools import lru_cache

from fifthwise.theory.key_evidence import Sections, evidence

__all__ = ["Weights", "carried_weights", "scores"]

# Twelve weights a row, by semitones of the root above the tonic.
Weights = dict[str, tuple[float, ...]]


@lru_cache(maxsize=1)
def carried_weights() -> Weights:
    """The weights that come with the package, read once."""
    # importlib.resources would do, but brings tempfile and random into a room that is pure.
    table = pkgutil.get_data("fifthwise.theory", "key_weights.toml")
    assert table is not None
    rows = tomllib.loads(table.decode("utf-8"))["weights"]
    return {name: tuple(row) for name, row in rows.items()}


def scores(sections: Sections, weights: Weights) -> list[float]:
    """How much the chords speak for each of the twelve tonics, by pitch class; natural logarithms of odds."""
    found = [0.0] * 12
    for each in evidence(sections):
        row = weights.get(each.row)
        if row is not None:
            for tonic in range(12):
                found[tonic] += each.amount * row[(each.root - tonic) % 12]
    return found
