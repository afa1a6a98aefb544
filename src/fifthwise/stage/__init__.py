"""What people do with it on the night: tonight's keys and everyone's books."""

from fifthwise.stage.books import Output, books, player_view
from fifthwise.stage.notices import notices
from fifthwise.stage.order_notices import OrderNotice, order_notices
from fifthwise.stage.outgoing import OUT_WAYS, OutKind, OutWay, export_song, export_songs
from fifthwise.stage.print_books import PrintFault, end_printing, print_books
from fifthwise.stage.tonight import Call, Tonight, call_song, key_as_called, plan, tune_of

__all__ = [
    "OUT_WAYS",
    "Call",
    "OrderNotice",
    "OutKind",
    "OutWay",
    "Output",
    "PrintFault",
    "Tonight",
    "books",
    "call_song",
    "end_printing",
    "export_song",
    "export_songs",
    "key_as_called",
    "notices",
    "order_notices",
    "plan",
    "player_view",
    "print_books",
    "tune_of",
]
