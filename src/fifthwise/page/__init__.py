"""The senses' eye: one layout of a song, drawn as print, screen and plain text."""

from fifthwise.page.layout import lay_out
from fifthwise.page.layout_model import (
    BarLine,
    Bracket,
    Figure,
    LegendItem,
    PagePart,
    PageView,
    Paper,
    Respelling,
    RoadStop,
    Sheet,
    SheetBar,
    SheetCue,
    SheetRow,
    SheetSection,
    SheetSlot,
    Show,
    SlotShape,
    StripEntry,
    StripLine,
)
from fifthwise.page.layout_tune import SheetNote, TuneFigure
from fifthwise.page.signs import SIGNS

__all__ = [
    "SIGNS",
    "BarLine",
    "Bracket",
    "Figure",
    "LegendItem",
    "PagePart",
    "PageView",
    "Paper",
    "Respelling",
    "RoadStop",
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
    "TuneFigure",
    "lay_out",
]
