"""The senses' eye: one layout of a song, drawn as print, screen and plain text."""

from fifthwise.page.advice_text import advice_text
from fifthwise.page.board import board_part, board_svg
from fifthwise.page.board_record import board_record
from fifthwise.page.board_text import board_text
from fifthwise.page.board_view import BoardSubject, BoardView
from fifthwise.page.evening_pages import (
    RunningSong,
    key_read,
    keysheet_record,
    printed_date,
    title_record,
)
from fifthwise.page.finger_text import finger_text
from fifthwise.page.html import (
    SetPage,
    Theme,
    chart_html,
    html_page,
    lyrics_html_page,
    set_html_page,
    signs_html,
)
from fifthwise.page.html_files import font_file, screen_style
from fifthwise.page.layout import lay_out
from fifthwise.page.layout_bar import BarLine, Figure, SheetBar, SheetCue, SheetSlot, SlotShape
from fifthwise.page.layout_figure import letter_figure, number_figure
from fifthwise.page.layout_model import (
    Bracket,
    LegendItem,
    Respelling,
    RoadStop,
    Sheet,
    SheetRow,
    SheetSection,
    StripEntry,
    StripLine,
)
from fifthwise.page.layout_reader import reading_key
from fifthwise.page.layout_tune import SheetNote, TuneFigure
from fifthwise.page.layout_view import Clef, PagePart, PageView, Paper, Show
from fifthwise.page.lyrics import lyric_sheet
from fifthwise.page.lyrics_model import LyricSheet
from fifthwise.page.lyrics_record import lyrics_record
from fifthwise.page.lyrics_text import lyrics_text
from fifthwise.page.picture import profile_words, singer_picture
from fifthwise.page.picture_keys import keys_picture
from fifthwise.page.picture_record import voice_record
from fifthwise.page.picture_small import small_picture
from fifthwise.page.printable import unprintable
from fifthwise.page.sheet import pdf_pages, song_record, song_text
from fifthwise.page.sheet_record import chart_record
from fifthwise.page.signs import SIGNS
from fifthwise.page.text import text_page
from fifthwise.page.text_signs import printed, printed_key, printed_prose, printed_tempo
from fifthwise.page.typst_book import PdfStandard, book_pages, book_pictures

__all__ = [
    "SIGNS",
    "BarLine",
    "BoardSubject",
    "BoardView",
    "Bracket",
    "Clef",
    "Figure",
    "LegendItem",
    "LyricSheet",
    "PagePart",
    "PageView",
    "Paper",
    "PdfStandard",
    "Respelling",
    "RoadStop",
    "RunningSong",
    "SetPage",
    "Sheet",
    "SheetBar",
    "SheetCue",
    "SheetNote",
    "SheetRow",
    "SheetSection",
    "SheetSlot",
    "Show",
    "SlotShape",
    "StripEntry",
    "StripLine",
    "Theme",
    "TuneFigure",
    "advice_text",
    "board_part",
    "board_record",
    "board_svg",
    "board_text",
    "book_pages",
    "book_pictures",
    "chart_html",
    "chart_record",
    "finger_text",
    "font_file",
    "html_page",
    "key_read",
    "keys_picture",
    "keysheet_record",
    "lay_out",
    "letter_figure",
    "lyric_sheet",
    "lyrics_html_page",
    "lyrics_record",
    "lyrics_text",
    "number_figure",
    "pdf_pages",
    "printed",
    "printed_date",
    "printed_key",
    "printed_prose",
    "printed_tempo",
    "profile_words",
    "reading_key",
    "screen_style",
    "set_html_page",
    "signs_html",
    "singer_picture",
    "small_picture",
    "song_record",
    "song_text",
    "text_page",
    "title_record",
    "unprintable",
    "voice_record",
]
