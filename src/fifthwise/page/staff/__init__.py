"""Tunes on a staff: bars of notes engraved by Verovio from MEI that is written here, and drawn as SVG."""

from fifthwise.page.staff.engrave import System, engrave_staff
from fifthwise.page.staff.engraver import EngravingFault
from fifthwise.page.staff.mei import staff_mei
from fifthwise.page.staff.model import Staff, StaffBar, StaffChord, StaffNote
from fifthwise.page.staff.of_chart import staff_of_chart
from fifthwise.page.staff.record import staff_record
from fifthwise.page.staff.screen import staff_html, staff_picture
from fifthwise.page.staff.words import bars_words

__all__ = [
    "EngravingFault",
    "Staff",
    "StaffBar",
    "StaffChord",
    "StaffNote",
    "System",
    "bars_words",
    "engrave_staff",
    "staff_html",
    "staff_mei",
    "staff_of_chart",
    "staff_picture",
    "staff_record",
]
