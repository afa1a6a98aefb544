"""A staff as plain values, as ``chart-staff.typ`` reads it."""

from typing import Any

from fifthwise.page.staff.engrave import engrave_staff
from fifthwise.page.staff.model import Staff
from fifthwise.page.staff.picture import system_svg
from fifthwise.page.staff.words import bars_words

__all__ = ["staff_record"]

PAPER_SPACES = 88  # staff spaces a system, so that a space is some 6 points on A4


def staff_record(staff: Staff) -> dict[str, Any]:
    """Write a tune for print: one picture a system, so that pages may part it."""
    systems = engrave_staff(staff, PAPER_SPACES)
    return {
        "told": list(staff.told),
        "systems": [
            {"name": each.name, "picture": system_svg(each, staff.title), "words": bars_words(each.bars)}
            for each in systems
        ],
    }
