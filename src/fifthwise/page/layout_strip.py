"""The strip of a page: tonight's 1, 4, 5 and 6- in letters, for every key of the song."""

from fifthwise.chart import Chart
from fifthwise.page.layout_anchors import anchor_box
from fifthwise.page.layout_bar import Figure
from fifthwise.page.layout_figure import letter_figure, number_figure
from fifthwise.page.layout_model import StripEntry, StripLine
from fifthwise.page.layout_reader import Reader
from fifthwise.page.layout_road import key_starts
from fifthwise.page.text_signs import printed_key
from fifthwise.theory import Key, NumberChord, called_chords, to_letters

__all__ = ["strip_lines"]


def strip_lines(chart: Chart, reader: Reader) -> tuple[StripLine, ...]:
    """One line a key, in the order in which they begin."""
    return tuple(_line(key, starts, reader) for key, starts in key_starts(chart))


def _line(key: Key, starts: str, reader: Reader) -> StripLine:
    chords = called_chords(key, reader.numbering)
    entries = tuple(_entry(chord, key, reader) for chord in chords)
    return StripLine(printed_key(reader.key(key)), entries, starts, anchor_box(key, reader))


def _entry(chord: NumberChord, key: Key, reader: Reader) -> StripEntry:
    return StripEntry(
        number_figure(chord, lowers=reader.numbering.lowers(key))
        if reader.view.show != "roman"
        else reader.number(chord, key),
        letter_figure(reader.letters(chord, key)),
        _sounding(chord, key, reader) if reader.view.part.capo else None,
        home=chord.root == reader.numbering.home(key),
    )


def _sounding(chord: NumberChord, key: Key, reader: Reader) -> Figure:
    return letter_figure(to_letters(chord, reader.numbering.one(key)))
