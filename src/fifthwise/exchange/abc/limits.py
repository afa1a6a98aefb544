"""How much of a file is read; what has more is refused before it is parsed."""

__all__ = [
    "LARGEST_FILE",
    "LONGEST_BAR",
    "LONGEST_LINE",
    "MOST_BARS",
    "MOST_FILE_BARS",
    "MOST_NOTES",
    "MOST_TUNES",
    "MOST_VOICES",
]

LARGEST_FILE = 4_000_000  # bytes or letters; a thousand tunes take about half of one
MOST_TUNES = 10_000
MOST_BARS = 2_000  # of a tune, its parts played in their order
MOST_FILE_BARS = 150_000  # of all tunes and voices
MOST_NOTES = 2_000_000
MOST_VOICES = 60
LONGEST_LINE = 20_000  # letters
LONGEST_BAR = 8_000  # quarters without a bar line
