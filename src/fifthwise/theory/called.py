"""The four chords that are called most in a key: 1, 4, 5 and 6-, or what stands for them."""

from fifthwise.theory.chord import NumberChord
from fifthwise.theory.degree import Degree
from fifthwise.theory.key import Key
from fifthwise.theory.numbering import Numbering
from fifthwise.theory.quality import Quality, make_quality

__all__ = ["called_chords"]

# The triad sign by how far its third and its fifth lie from the root, in fifths.
THIRDS = {(4, 1): "", (-3, 1): "-", (-3, -6): "o", (4, 8): "+"}


def called_chords(key: Key, numbering: Numbering) -> tuple[NumberChord, ...]:
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
