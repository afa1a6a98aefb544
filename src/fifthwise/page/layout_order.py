"""Which sections stand on a page, in which order and key, and where the song ends."""

from dataclasses import dataclass

from fifthwise.chart import Chart, FormFault, playing_order
from fifthwise.theory import Key

__all__ = ["Played", "WrittenSection", "played", "written_sections"]


@dataclass(frozen=True, slots=True)
class WrittenSection:
    """A section as it stands on a page: its index in the chart, and the key it is written in."""

    index: int
    key: Key


@dataclass(frozen=True, slots=True)
class Played:
    """The playings of a song.

    Attributes
    ----------
    visits : tuple of WrittenSection
        Every playing of a section, in order.
    end : tuple of int
        Section and bar with which the song ends.
    """

    visits: tuple[WrittenSection, ...]
    end: tuple[int, int]

    def keys(self, index: int) -> tuple[Key, ...]:
        """The keys of each playing of a section, in order."""
        return tuple(visit.key for visit in self.visits if visit.index == index)


def played(chart: Chart) -> Played:
    """How a song is played; as it is written, where its form is at fault."""
    try:
        steps = playing_order(chart)
    except FormFault:
        steps = ()
    if not steps:
        visits = tuple(WrittenSection(i, chart.key) for i in range(len(chart.sections)))
        return Played(visits, _text_end(chart))
    found = {(step.visit, step.section): WrittenSection(step.section, step.entry_key) for step in steps}
    return Played(tuple(found.values()), (steps[-1].section, steps[-1].bar))


def _text_end(chart: Chart) -> tuple[int, int]:
    last = len(chart.sections) - 1
    return last, len(chart.sections[last].bars) - 1 if chart.sections else -1


def written_sections(chart: Chart, playings: Played, *, every_key: bool) -> tuple[WrittenSection, ...]:
    """Sections in the order of the text, each in the key of its first playing.

    With ``every_key`` each further key is written out too, after the section that is played before it.
    """
    firsts = (playings.keys(i) or (chart.key,) for i in range(len(chart.sections)))
    written = [WrittenSection(i, keys[0]) for i, keys in enumerate(firsts)]
    if every_key:
        for before, visit in zip(playings.visits, playings.visits[1:], strict=False):
            if visit not in written:
                written.insert(written.index(before) + 1, visit)
    return tuple(written)
