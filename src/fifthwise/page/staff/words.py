"""A staff for those who hear the page: its numbers, bar by bar."""

from collections.abc import Iterator

from fifthwise.page.staff.model import Staff, StaffBar, StaffNote

__all__ = ["staff_words"]


def staff_words(staff: Staff) -> str:
    """The numbers of a tune in words: ``Verse: 5 | 1 2 | rest``."""
    return " ".join(_bars(staff))


def _bars(staff: Staff) -> Iterator[str]:
    for place, bar in enumerate(staff.bars):
        name = f"{bar.section}: " if bar.section else ""
        yield name + (_bar(bar) or "rest") + ("" if _ends(staff, place) else " |")


def _ends(staff: Staff, place: int) -> bool:
    """Whether a section ends with a bar."""
    return place + 1 == len(staff.bars) or staff.bars[place + 1].opens


def _bar(bar: StaffBar) -> str:
    return " ".join(_note(note) for note in bar.notes if not note.goes_on)


def _note(note: StaffNote) -> str:
    return "&".join(note.numbers) if note.pitches else "chop"
