"""The key row: keys in order of fifths, as strings are; left of a key is its 4, right of it its 5."""

from dataclasses import dataclass

from fifthwise.theory import MODES, Degree, Key, NoteName

__all__ = ["KeyPlace", "key_row"]

# From six flats to six sharps; the two ends sound alike.
SIGNATURES = range(-6, 7)


@dataclass(frozen=True, slots=True)
class KeyPlace:
    """One key of the row.

    Attributes
    ----------
    degree : Degree
        What its tonic is in the key that is shown; beyond six strings, as it sounds.
    current, written : bool
        Whether the song is shown in it; whether the chart was written in it.
    away : int
        Strings to the right (above 0) or left of the current key.
    """

    key: Key
    degree: Degree
    current: bool
    written: bool
    away: int


def key_row(current: Key, written: Key) -> tuple[KeyPlace, ...]:
    """The thirteen keys of a song's mode; a rarer spelling that is shown takes the place of its neighbour."""
    places = list(SIGNATURES)
    if current.signature not in places:
        places = sorted(
            current.signature if signature % 12 == current.signature % 12 else signature
            for signature in places
        )
    return tuple(_place(signature, current, written) for signature in places)


def _place(signature: int, current: Key, written: Key) -> KeyPlace:
    key = Key(NoteName(signature - MODES[current.mode]), current.mode)
    away = signature - current.signature
    near = (away + 5) % 12 - 5 if abs(away) > 6 else away
    return KeyPlace(key, Degree(near), key == current, key == written, away)
