"""Open formats in and out: charts typed in letters.

Pure: texts go in and come out as values; files are read and written by the commands.
"""

from fifthwise.exchange.letter_chart import is_chart_text, read_letter_chart

__all__ = ["is_chart_text", "read_letter_chart"]
