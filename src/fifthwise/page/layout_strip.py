"""The strip of a page: tonight's 1, 4, 5 and 6- in letters, for every key of the song."""

from fifthwise.chart import Chart
from fifthwise.page.layout_bar import Figure
from fifthwise.page.layout_figure import letter_figure, number_figure
from fifthwise.page.layout_model import StripEntry, StripLine
from fifthwise.page.layout_reader import Reader
from fifthwise.page.layout_road import key_starts
from fifthwise.page.text_signs import printed_key
from fifthwise.theory import Degree, Key, NumberChord, Numbering, Quality, make_quality, to_letters

__all__ = ["strip_chords", "strip_lines"]

THIRDS = {(4, 1): "", (-3, 1): "-", (-3, -6): "o", (4, 8): "+"}


def strip_chords(key: Key, numbering: Numbering) -> tuple[NumberChord, ...]:
    """The four chords under a song in this key.

    1, 4, 5 and 6- in a major key and in a minor one counted from six; the scale's own 1, 4 and 5, and
    its b3, in a minor key with home 1-; in another mode the scale's own 1, 4 and 5, and its b7, or its 6
    where the seventh is not lowered.
    """
    scale = numbering.scale(key)
    return tuple(NumberChord(d, _triad(d, scale)) for d in _degrees(key, numbering, scale))


def _degrees(key: Key, numbering: Numbering, scale: tuple[Degree, ...]) -> tuple[Degree, ...]:
    one, _, three, four, five, six, seven = scale
    if key.is_minor and numbering.minor != "from-six":
        return one, four, five, three
    return one, four, five, (seven if seven.alter < 0 else six)


def _triad(root: Degree, scale: tuple[Degree, ...]) -> Quality:
    """The scale's own triad on one of its degrees."""
    place = scale.index(root)
    third, fifth = (scale[(place + up) % 7].fifths - root.fifths for up in (2, 4))
    return make_quality(THIRDS[third, fifth], "")


def strip_lines(chart: Chart, reader: Reader) -> tuple[StripLine, ...]:
    """One line a key, in the order in which they begin."""
    return tuple(_line(key, starts, reader) for key, starts in key_starts(chart))


def _line(key: Key, starts: str, reader: Reader) -> StripLine:
    chords = strip_chords(key, reader.numbering)
    return StripLine(printed_key(reader.key(key)), tuple(_entry(c, key, reader) for c in chords), starts)


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
