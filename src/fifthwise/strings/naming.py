"""What a player calls a place: the position of the hand, and a finger's low or high place in it.

Violin and viola: in the n-th position the first finger stops the n-th letter above the open string; half
position lies a semitone below the first. Common practice, no source. The natural letter of one place differs
from string to string, so a hand is named by its centre alone: each position has a low and a high place.
"""

import difflib

from fifthwise.strings.errors import PositionFault
from fifthwise.strings.frame import OPEN, THUMB, Frame
from fifthwise.strings.instrument import Instrument
from fifthwise.theory import SpelledPitch, between

__all__ = ["finger_name", "position_name", "position_steps", "read_position", "string_name", "usual_finger"]

ORDINALS = (
    "open", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
    "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth",
)  # fmt: skip
HALF = 1
# Semitones above the open string, less octaves, to letters above it and whether that is the letter's low
# place. Six semitones, a raised fourth letter or a lowered fifth, are said as the higher of the third.
LETTERS = (
    (0, ""), (1, "low "), (1, ""), (2, "low "), (2, ""), (3, ""), (3, "high "), (4, ""), (5, "low "), (5, ""),
    (6, "low "), (6, ""),
)  # fmt: skip
LETTERS_IN_OCTAVE = 7


def position_name(centre: int) -> str:
    """Name the position of a hand whose first finger lies ``centre`` semitones above the open string.

    ``half``, ``first``, ``low second``, ``second``, ``third``, ``high third`` …
    """
    if centre == HALF:
        return "half"
    octaves, within = divmod(centre, 12)
    letters, place = LETTERS[within]
    return f"{place}{ORDINALS[letters + LETTERS_IN_OCTAVE * octaves]}"


def read_position(instrument: Instrument, text: str) -> int:
    """Find the hand's centre by a position's name: ``third``, ``low second``, ``half`` or a number, ``3``.

    Raises
    ------
    PositionFault
        The instrument's hand has no such position; names the near miss.
    """
    known = {position_name(centre): centre for centre in instrument.frame.centres("all")}
    wanted = " ".join(text.lower().replace("position", "").split())
    if wanted.isascii() and wanted.isdigit() and 0 < int(wanted) < len(ORDINALS):
        wanted = ORDINALS[int(wanted)]
    if wanted in known:
        return known[wanted]
    near = difflib.get_close_matches(wanted, known, n=1)
    fix = f"Did you mean '{near[0]}'?" if near else f"Known are {', '.join(known)}"
    raise PositionFault(f"no position '{text}' on a {instrument.label.lower()}", "position", fix)


def position_steps(centre: int) -> int:
    """Letters above the open string that the first finger stops in a position: 1 in first and half."""
    octaves, within = divmod(centre, 12)
    return 1 if centre == HALF else LETTERS[within][0] + LETTERS_IN_OCTAVE * octaves


def string_name(instrument: Instrument, string: int) -> str:
    """A string's letter, with its octave where two strings share the letter."""
    own = instrument.strings[string]
    shared = sum(other.name == own.name for other in instrument.strings) > 1
    return str(own) if shared else str(own.name)


def usual_finger(open_string: SpelledPitch, pitch: SpelledPitch) -> int:
    """The finger that a pitch's letter gives in first position: letters above the open string, 0 for open.

    Spelling decides: on the G string Db is the fourth finger, C# the third. What is no letter of first
    position gives a number above 4.
    """
    return between(open_string, pitch).steps


def finger_name(frame: Frame, finger: int, offset: int) -> str:
    """Name a finger with its place: ``1``, ``low 2``, ``high 3``, ``low 4``; ``open``, ``thumb``.

    Where the frame has no plain places (cello, bass) the finger alone is its name.

    Parameters
    ----------
    frame : Frame
        The instrument's.
    finger : int
        0 is open, -1 the thumb.
    offset : int
        Semitones above the hand's centre.
    """
    if finger in (OPEN, THUMB):
        return "open" if finger == OPEN else "thumb"
    away = offset - dict(frame.plain).get(finger, offset)
    return f"{'low ' if away < 0 else 'high ' if away > 0 else ''}{finger}"
