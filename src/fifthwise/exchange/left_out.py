"""What a file has that a song cannot hold, gathered while it is read."""

__all__ = ["LeftOut"]

NAMED_BARS = 3  # that a sentence names before it counts


class LeftOut:
    """What a song cannot hold, each kind once with the bars in which it stands."""

    def __init__(self) -> None:
        self.found: dict[str, list[str]] = {}

    def add(self, what: str, bar: str) -> None:
        """Note something at a bar, or at none; said as in ``'figured bass is left out'``."""
        bars = self.found.setdefault(what, [])
        if not bars or bars[-1] != bar:
            bars.append(bar)

    def sentences(self) -> tuple[str, ...]:
        """One sentence a kind, without a full stop."""
        return tuple(f"{what} ({_bars(bars)})" if any(bars) else what for what, bars in self.found.items())


def _bars(bars: list[str]) -> str:
    named = ", ".join(bars[:NAMED_BARS])
    more = f" and {len(bars) - NAMED_BARS} more" if len(bars) > NAMED_BARS else ""
    return f"{'bar' if len(bars) == 1 else 'bars'} {named}{more}"
