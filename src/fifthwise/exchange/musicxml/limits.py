"""How much of a file is read; what has more is refused before it is parsed."""

__all__ = [
    "LARGEST_FILE",
    "MOST_BARS",
    "MOST_DEPTH",
    "MOST_ELEMENTS",
    "MOST_MEMBERS",
    "MOST_PARTS",
    "megabytes",
]

LARGEST_FILE = 24_000_000  # bytes, packed or not; a symphony's full score has about as many
MOST_ELEMENTS = 1_000_000
MOST_DEPTH = 64  # MusicXML nests a dozen
MOST_MEMBERS = 1_000  # of a packed file
MOST_PARTS = 200
MOST_BARS = 2_000


def megabytes(size: int) -> str:
    """A size as it is said to a player."""
    return f"{size / 1_000_000:.0f} MB"
