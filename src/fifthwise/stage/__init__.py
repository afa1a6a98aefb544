"""What people do with it on the night: an evening's songs, keys and books."""

from fifthwise.stage.books import Output, books, player_view
from fifthwise.stage.errors import EveningFaults, PartFault, StageError
from fifthwise.stage.evening import Evening, Player, SetSong
from fifthwise.stage.evening_text import LEVELS, SHOWS, read_evening
from fifthwise.stage.notices import notices
from fifthwise.stage.parts import Part, part_names, part_of
from fifthwise.stage.tonight import Call, Tonight, key_as_called, plan

__all__ = [
    "LEVELS",
    "SHOWS",
    "Call",
    "Evening",
    "EveningFaults",
    "Output",
    "Part",
    "PartFault",
    "Player",
    "SetSong",
    "StageError",
    "Tonight",
    "books",
    "key_as_called",
    "notices",
    "part_names",
    "part_of",
    "plan",
    "player_view",
    "read_evening",
]
