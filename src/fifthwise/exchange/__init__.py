"""Open formats in and out: charts typed in letters, lead sheets of notation files.

Pure: texts go in and come out as values; files are read and written by the commands.
"""

from fifthwise.exchange.chart_sheet import sheet_of_chart
from fifthwise.exchange.incoming import LARGEST_INCOMING, read_incoming, too_large
from fifthwise.exchange.incoming_numbers import NUMBERS
from fifthwise.exchange.incoming_song import FoundSong, Incoming, Option, Question, Wish
from fifthwise.exchange.lead_chart import MadeChart, chart_of_sheet
from fifthwise.exchange.lead_sheet import LeadBar, LeadChord, LeadNote, LeadSheet
from fifthwise.exchange.letter_chart import is_chart_text, read_letter_chart

__all__ = [
    "LARGEST_INCOMING",
    "NUMBERS",
    "FoundSong",
    "Incoming",
    "LeadBar",
    "LeadChord",
    "LeadNote",
    "LeadSheet",
    "MadeChart",
    "Option",
    "Question",
    "Wish",
    "chart_of_sheet",
    "is_chart_text",
    "read_incoming",
    "read_letter_chart",
    "sheet_of_chart",
    "too_large",
]
