"""``K:``: a key of ours, and what each letter sounds as without an accidental of its own.

Every mode is a key of ours, numbered from its tonic. A signature that no mode has keeps its notes, and takes
the nearest key.

References
----------
The abc music standard 2.1, 3.1.14 "K: - key" and 4.6 "Clefs and transposition"; from memory.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from fifthwise.theory import MODES, Interval, Key, NoteName, in_fewest_accidentals, nearest_interval

__all__ = ["C_MAJOR", "OPEN_KEY", "KeyField", "Moved", "is_no_key", "read_key_field", "read_moved"]

LETTERS = "FCGDAEB"
SHARP = 7  # places on the line of fifths
MOST_SIGNS = 7
KEY = re.compile(r"([A-Ga-g])([#b♯♭]?)\s*([A-Za-z]*)(\s*=)?")
ACCIDENTAL = re.compile(
    r"(?<![=^_\w])((?:\^{1,2}|_{1,2}|=)[A-Ga-g](?:(?:\^{1,2}|_{1,2}|=)[A-Ga-g])*)(?![\w=])"
)
EACH = re.compile(r"(\^{1,2}|_{1,2}|=)([A-Ga-g])")
ALTER = {"^": 1, "^^": 2, "_": -1, "__": -2, "=": 0}
MODE_WORDS = {
    "": "major", "m": "minor", "maj": "major", "min": "minor", "ion": "ionian", "dor": "dorian",
    "phr": "phrygian", "lyd": "lydian", "mix": "mixolydian", "aeo": "aeolian", "loc": "locrian", "exp": "exp",
}  # fmt: skip
CLEFS = ("treble", "alto", "tenor", "bass", "perc", "clef", "none")
NEAREST = ("major", "minor", "dorian", "mixolydian", "lydian", "phrygian", "locrian")
C_MAJOR = Key(NoteName(0))
TRANSPOSE = re.compile(r"\b(?:transpose|t)\s*=\s*([+-]?\d{1,2})\b")
OCTAVE = re.compile(r"\boctave\s*=\s*([+-]?\d)\b")
CLEF_OCTAVE = re.compile(r"\b(?:treble|alto|tenor|bass)\d?([+-])(8|15)\b")
PIPES = "Highland pipe music is read as the pipes sound: in A mixolydian, with F# and C#"
NO_KEY = "the tune says that it has no key; it is counted in C"
Signature = tuple[int, ...]  # semitones by which each of F C G D A E B is altered


@dataclass(frozen=True, slots=True)
class KeyField:
    """A key, the alterations of the letters F C G D A E B, and what was settled, in words."""

    key: Key
    signature: Signature
    told: str = ""


OPEN_KEY = KeyField(C_MAJOR, (0,) * 7)


@dataclass(frozen=True, slots=True)
class Moved:
    """How a line sounds against its notes: octaves of its clef, and a transposition."""

    octaves: int = 0
    by: Interval = Interval(0, 0)  # noqa: RUF009 - frozen


@lru_cache(maxsize=1024)
def read_key_field(text: str) -> KeyField | None:
    """Read what stands behind ``K:``; ``None`` where it names no key but, say, a clef alone."""
    text = text.strip()
    if text[:2] in ("HP", "Hp"):
        return KeyField(Key(NoteName(3), "mixolydian"), _signature(2), PIPES)
    match = KEY.match(text)
    if not match or _is_clef(text):
        return _no_key(text)
    word = match[3].lower()
    is_mode = len(word) > 2 and word[:3] in MODE_WORDS
    if word.startswith(CLEFS) or (match[4] and not is_mode):
        word = ""
    tonic = LETTERS.index(match[1].upper()) - 1 + SHARP * {"#": 1, "♯": 1, "b": -1, "♭": -1, "": 0}[match[2]]
    mode = MODE_WORDS.get(word[:3] if len(word) > 1 else word, "")
    told = "" if mode else f"the mode '{match[3][:20]}' is not known; the key is major"
    altered = _accidentals(text[match.end(3) :] if is_mode else text)
    return _field(NoteName(tonic), mode or "major", altered, told)


def _is_clef(text: str) -> bool:
    """Whether a key's letter is the beginning of a word, as in ``bass`` or ``clef=``."""
    return text.lower().startswith(CLEFS)


def is_no_key(text: str) -> bool:
    """Whether what stands behind ``K:`` means a key that cannot be read, and not, say, a clef alone."""
    word = text.split()[0] if text.strip() else ""
    return word[:1].isalpha() and "=" not in word and not _is_clef(word) and read_key_field(text) is None


def _no_key(text: str) -> KeyField | None:
    altered = _accidentals(text)
    word = text.split()[0].lower() if text else ""
    if text and word != "none" and not altered:
        return None
    return _field(NoteName(0), "exp", altered, "" if altered else NO_KEY)


def _accidentals(text: str) -> dict[str, int]:
    found: dict[str, int] = {}
    if "^" in text or "_" in text or "=" in text:
        for run in ACCIDENTAL.finditer(text):
            found.update({letter.upper(): ALTER[sign] for sign, letter in EACH.findall(run[1])})
    return found


def _field(tonic: NoteName, mode: str, altered: dict[str, int], told: str) -> KeyField:
    plain = (0,) * 7 if mode == "exp" else _signature(tonic.fifths + MODES[mode])
    signature = tuple(altered.get(letter, alter) for letter, alter in zip(LETTERS, plain, strict=True))
    if mode != "exp" and signature == plain:
        return _within(Key(tonic, mode), signature, told)
    for name in NEAREST:
        if _signature(tonic.fifths + MODES[name]) == signature:
            return _within(Key(tonic, name), signature, told)
    if mode == "exp":
        minor = _alter(signature, tonic.fifths - 3)
        mode = "minor" if minor else "major"
    key = Key(tonic, mode)
    told = told or f"the signature is that of no key; the song is in {key}, and its notes are as they sound"
    return _within(key, signature, told)


def _alter(signature: Signature, third: int) -> bool:
    """Whether a note, such as a tonic's minor third, is as the signature has it."""
    return signature[(third + 1) % 7] == (third + 1) // 7


def _signature(signs: int) -> Signature:
    return tuple((signs + 6 - at) // 7 if signs >= 0 else -((at - signs) // 7) for at in range(7))


def _within(key: Key, signature: Signature, told: str) -> KeyField:
    if abs(key.signature) <= MOST_SIGNS:
        return KeyField(key, signature, told)
    simple = in_fewest_accidentals(key)
    return KeyField(simple, signature, told or f"{key} has more than seven signs; the song is in {simple}")


@lru_cache(maxsize=256)
def read_moved(text: str) -> Moved | None:
    """Read the clef and transposition behind ``K:`` or ``V:``; ``None`` where it says neither."""
    clef, octave, semitones = CLEF_OCTAVE.search(text), OCTAVE.search(text), TRANSPOSE.search(text)
    if not (clef or octave or semitones):
        return None
    octaves = int(octave[1]) if octave else 0
    if clef:
        octaves += int(clef[1] + ("1" if clef[2] == "8" else "2"))
    by = Interval(0, 0)
    if semitones:
        wanted = int(semitones[1])
        near = nearest_interval(7 * wanted)
        by = near + Interval(0, (wanted - near.semitones) // 12)
    return Moved(octaves, by)
