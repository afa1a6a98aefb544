"""A staff for those who hear the page: its numbers, bar by bar."""

from collections.abc import Iterator, Sequence

from fifthwise.page.staff.model import StaffBar, StaffNote

__all__ = ["bars_words"]


def bars_words(bars: Sequence[StaffBar]) -> str:
    """The numbers of a tune in words: ``Verse: 5 | 1 2 | rest``."""
    return " ".join(_bars(bars))


def _bars(bars: Sequence[StaffBar]) -> Iterator[str]:
    for place, bar in enumerate(bars):
        name = f"{bar.section}: " if bar.section else ""
        ends = place + 1 == len(bars) or bars[place + 1].opens
        yield name + (_bar(bar) or "rest") + ("" if ends else " |")


def _bar(bar: StaffBar) -> str:
    return " ".join(_note(note) for note in bar.notes if not note.goes_on)


def _note(note: StaffNote) -> str:
    return "&".join(note.numbers) if note.pitches else "chop"
