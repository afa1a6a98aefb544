"""Open formats in and out: charts typed in letters.

Pure: texts go in and come out as values; files are read and written by the commands.
"""

from fifthwise.exchange.letter_chart import read_letter_chart

__all__ = ["read_letter_chart"]
