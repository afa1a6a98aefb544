"""How much of a file is read; what has more is refused before it is parsed."""

__all__ = ["LARGEST_FILE", "MOST_BARS", "MOST_EVENTS", "MOST_TRACKS"]

LARGEST_FILE = 1_500_000  # bytes; a song with every part and controller has a tenth of that
MOST_EVENTS = 250_000  # of all tracks together, which stand in memory at once
MOST_TRACKS = 256
MOST_BARS = 2_000
