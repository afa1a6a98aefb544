"""The evening as written: singers, players, their instruments, and songs in running order.

Pure: the text of a ``.set.yaml`` becomes a frozen value and back; no file of the user's is read here.
"""

from fifthwise.evening.date import ISO_DATE, is_date
from fifthwise.evening.errors import EveningError, EveningFaults, PartFault
from fifthwise.evening.evening import Evening, Player, SetSong
from fifthwise.evening.names import file_name, file_names
from fifthwise.evening.parts import Part, part_names, part_of
from fifthwise.evening.read import PAPERS, read_evening
from fifthwise.evening.read_people import SHOWS, read_players, read_singers
from fifthwise.evening.sung import SungLine, read_sung, write_sung
from fifthwise.evening.write import write_evening, write_players, write_singers

__all__ = [
    "ISO_DATE",
    "PAPERS",
    "SHOWS",
    "Evening",
    "EveningError",
    "EveningFaults",
    "Part",
    "PartFault",
    "Player",
    "SetSong",
    "SungLine",
    "file_name",
    "file_names",
    "is_date",
    "part_names",
    "part_of",
    "read_evening",
    "read_players",
    "read_singers",
    "read_sung",
    "write_evening",
    "write_players",
    "write_singers",
    "write_sung",
]
