"""The key row: keys in order of fifths, as strings are; left of a key is its 4, right of it its 5."""

from collections.abc import Mapping
from dataclasses import dataclass

from fifthwise.theory import MODES, Degree, Key, NoteName, move_key

__all__ = ["KeyPlace", "key_row", "semitone_steps"]

# From six flats to six sharps; the two ends sound alike.
SIGNATURES = range(-6, 7)
# Keys that a telephone shows.
NEAR = 7


@dataclass(frozen=True, slots=True)
class KeyPlace:
    """One key of the row.

    Attributes
    ----------
    degree : Degree
        What its tonic is in the key that is shown; beyond six strings, as it sounds.
    current, written : bool
        Whether the song is shown in it; whether the chart was written in it.
    near : bool
        Whether it is one of the seven about the current key.
    same : bool
        Whether it is another name of the current key.
    singers : tuple of str
        Whom it suits best.
    """

    key: Key
    degree: Degree
    current: bool
    written: bool
    near: bool
    same: bool
    singers: tuple[str, ...]


def key_row(current: Key, written: Key, best: Mapping[str, Key]) -> tuple[KeyPlace, ...]:
    """The thirteen keys of a song's mode; a rarer spelling that is shown takes the place of its neighbour.

    Parameters
    ----------
    best : mapping of str to Key
        The key that suits each singer best, by name.
    """
    places = list(SIGNATURES)
    if current.signature not in places:
        places = sorted(
            current.signature if signature % 12 == current.signature % 12 else signature
            for signature in places
        )
    first = min(max(places.index(current.signature) - NEAR // 2, 0), len(places) - NEAR)
    near = places[first : first + NEAR]
    if written.signature not in places:
        written = next(key for place in places if _sounds_as(key := _key(place, current), written))
    return tuple(_place(place, current, written, best, near=place in near) for place in places)


def semitone_steps(key: Key) -> tuple[Key, Key]:
    """The keys a semitone below and above."""
    sharps = key.signature > 0
    return move_key(key, -1, sharps=sharps), move_key(key, 1, sharps=sharps)


def _key(signature: int, current: Key) -> Key:
    """The key of a signature, in the song's mode."""
    return Key(NoteName(signature - MODES[current.mode]), current.mode)


def _place(signature: int, current: Key, written: Key, best: Mapping[str, Key], *, near: bool) -> KeyPlace:
    key = _key(signature, current)
    away = signature - current.signature
    degree = Degree((away + 5) % 12 - 5 if abs(away) > 6 else away)
    same = away != 0 and _sounds_as(key, current)
    singers = tuple(name for name, suits in best.items() if _sounds_as(key, suits))
    return KeyPlace(key, degree, key == current, key == written, near, same, singers)


def _sounds_as(one: Key, other: Key) -> bool:
    return one.tonic.pitch_class == other.tonic.pitch_class
