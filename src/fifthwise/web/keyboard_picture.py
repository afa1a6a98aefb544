"""A piano's keys with a voice over them: what it reaches, what is easy, where it turns.

Lengths are the picture's own units; a white key is ``WHITE`` wide.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from fifthwise.page import printed
from fifthwise.theory import NoteName, SpelledPitch

__all__ = ["KeyboardPicture", "PianoKey", "keyboard_picture"]

WHITE, BLACK = 20, 12
LOWEST, HIGHEST = 36, 84  # C2 and C6; a voice beyond them makes the keyboard longer
# Places on the line of fifths by semitones above C: the black keys are C♯ E♭ F♯ A♭ B♭, as tuners name them.
NAMES = (0, 7, 2, -3, 4, -1, 6, 1, -4, 3, -2, 5)
WHITES = (0, 2, 4, 5, 7, 9, 11)


@dataclass(frozen=True, slots=True)
class PianoKey:
    """One key.

    Attributes
    ----------
    note : str
        What is typed for it: ``B♭4``.
    x, width : float
        From the left.
    """

    note: str
    black: bool
    x: float
    width: float


@dataclass(frozen=True, slots=True)
class KeyboardPicture:
    """What there is to draw.

    Attributes
    ----------
    octaves : tuple of (float, str)
        Each C by its middle and name.
    reach, easy, turns : tuple of float
        The middles of those notes that are known, low to high; at most two each.
    told : str
        The voice in words.
    """

    width: float
    keys: tuple[PianoKey, ...]
    octaves: tuple[tuple[float, str], ...]
    reach: tuple[float, ...]
    easy: tuple[float, ...]
    turns: tuple[float, ...]
    told: str


def keyboard_picture(notes: Mapping[str, SpelledPitch]) -> KeyboardPicture:
    """Lay out a keyboard for the notes of a singer's form.

    Parameters
    ----------
    notes : mapping
        Those of ``NOTE_FIELDS`` that are known.
    """
    found = [note.midi for note in notes.values()]
    low, high = _c_below(min([LOWEST, *found])), -_c_below(-max([HIGHEST, *found]))
    keys = [_key(midi, low) for midi in range(low, high + 1)]

    def places(*fields: str) -> tuple[float, ...]:
        return tuple(sorted({_middle(notes[field].midi, low) for field in fields if field in notes}))

    return KeyboardPicture(
        keys[-1].x + WHITE,
        tuple(sorted(keys, key=lambda key: key.black)),
        tuple((_middle(midi, low), f"C{midi // 12 - 1}") for midi in range(low, high + 1, 12)),
        places("low", "high"),
        places("easy_low", "easy_high"),
        places("turn", "turn_to"),
        _told(notes),
    )


def _c_below(midi: int) -> int:
    return midi // 12 * 12


def _key(midi: int, low: int) -> PianoKey:
    name = f"{printed(NoteName(NAMES[midi % 12]))}{midi // 12 - 1}"
    black = midi % 12 not in WHITES
    width = BLACK if black else WHITE
    return PianoKey(name, black, _middle(midi, low) - width / 2, width)


def _middle(midi: int, low: int) -> float:
    """The middle of a key; a black one stands over the line between two white ones."""
    step = midi % 12
    whites = (midi - low) // 12 * 7 + sum(white < step for white in WHITES)
    return WHITE * (whites + (0.5 if step in WHITES else 0))


def _told(notes: Mapping[str, SpelledPitch]) -> str:
    told = (
        _pair("Reaches", notes, "low", "high"),
        _pair("easy", notes, "easy_low", "easy_high"),
        _pair("turns at", notes, "turn", "turn_to"),
    )
    said = ", ".join(filter(None, told))
    return f"{said[:1].upper()}{said[1:]}." if said else "No notes yet."


def _pair(word: str, notes: Mapping[str, SpelledPitch], low: str, high: str) -> str:
    ends = " to ".join(printed(notes[field]) if field in notes else "?" for field in (low, high))
    if word == "turns at":
        ends = ends.replace(" to ?", "").replace("? to ", "")
    return f"{word} {ends}" if low in notes or high in notes else ""
