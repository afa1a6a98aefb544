"""A chord of a key, as text, for the tests of advice."""

from fifthwise.theory import Numbering, read_chord, read_key

__all__ = ["in_key"]


def in_key(number, key="G", minor="from-six"):
    """A chord, its key and how the song counts, to be handed on with a star."""
    numbering, read = Numbering(minor), read_key(key)
    return read_chord(number, read, numbering), read, numbering
