"""The chords of a song: those that it spells out, else those that are found from its notes."""

from collections.abc import Sequence
from typing import Literal

from fifthwise.exchange.midi.bars import Span
from fifthwise.exchange.midi.choose import MidiPart
from fifthwise.exchange.midi.chord_text import TimedChord
from fifthwise.exchange.midi.find_chords import found_chords, windows_of
from fifthwise.exchange.midi.raw import RawSong
from fifthwise.theory import Key

__all__ = ["ChordSource", "find_harmony"]

ChordSource = Literal["said", "found", "none"]
UNDER_SHARE = 3  # a lone part has chords where a note in so many lies under its tune
MOST_NAMED = 4


def find_harmony(
    song: RawSong,
    parts: Sequence[MidiPart],
    tune: int | None,
    under: int,
    spans: Sequence[Span],
    keys: Sequence[Key],
) -> tuple[list[TimedChord], str]:
    """Find the chords of a song that spells none.

    Parameters
    ----------
    tune : int or None
        The place of the part that is the tune.
    under : int
        How many of its notes lie under the tune.

    Returns
    -------
    list of (Fraction, LetterChord), str
        And where they come from, in a sentence.
    """
    pitched = [at for at, part in enumerate(parts) if not part.is_drums]
    others = [at for at in pitched if at != tune]
    if not others and (tune is None or under * UNDER_SHARE < parts[tune].notes):
        return [], "the file has no chords, and one line alone shows none"
    counted = [(song.parts[at], at == tune and bool(others)) for at in pitched]
    chords = found_chords(windows_of(spans, counted, song.ppq), keys)
    names = list(dict.fromkeys(f"'{parts[at].name}'" for at in others or pitched))
    more = ["others"] if len(names) > MOST_NAMED else []
    sources = ", ".join([*names[:MOST_NAMED], *more])
    return chords, f"the chords were found from the notes of {sources}; check them"
