"""The key that holds in each bar: named by the caller, else by the file, else found from the notes."""

from bisect import bisect_right
from collections.abc import Sequence
from fractions import Fraction

from fifthwise.exchange.midi.bars import Span
from fifthwise.exchange.midi.hear_key import HeardKey
from fifthwise.exchange.midi.raw import RawSong
from fifthwise.theory import Key, NoteName, read_key

__all__ = ["C_MAJOR", "bar_keys", "key_told"]

C_MAJOR = Key(NoteName(0))
LATE = 4  # a key that is named in the first of so many parts of a bar holds in the whole of it
DIFFERS = 0.5  # surety from which a found key is told beside the one that the file names


def bar_keys(song: RawSong, spans: Sequence[Span], wanted: Key | None, found: HeardKey | None) -> list[Key]:
    """One key a bar; a key that is asked for stands for the first one."""
    named = [(Fraction(tick, song.ppq), read_key(key)) for tick, key in song.keys]
    first = wanted or (named[0][1] if named else found.key if found else C_MAJOR)
    keys = []
    for span in spans:
        held = bisect_right(named, span.start + span.length / LATE, key=lambda key: key[0]) - 1
        key = named[held][1] if held >= 0 else first
        keys.append(first if not named or key == named[0][1] else key)
    return keys


def key_told(song: RawSong, key: Key, wanted: Key | None, found: HeardKey | None) -> list[str]:
    """What to say about the key: that it was found, or that the notes sound like another."""
    if wanted is not None or found is None:
        return [] if song.keys or wanted else ["the file names no key and its notes show none; C is taken"]
    if not song.keys:
        return [f"the file names no key; {found.key.short} was found, else {found.runner_up.short}"]
    if found.key != key and found.surety >= DIFFERS:
        return [f"the file says that the key is {key.short}; it sounds like {found.key.short}"]
    return []
