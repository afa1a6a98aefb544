"""Decorations and words over notes: which of them lead through the song, which a song cannot hold.

References
----------
The abc music standard 2.1, 4.14 "Decorations", 4.16 "Redefinable symbols"; from memory.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from fifthwise.chart import Mark
from fifthwise.exchange.abc.texts import words_of
from fifthwise.exchange.road import Road, leads
from fifthwise.theory import ChordFault, LetterChord, read_letter_chord

__all__ = [
    "CLOSE",
    "LETTER_SIGNS",
    "MARKS",
    "MARK_WORDS",
    "OPEN",
    "Quote",
    "lost",
    "read_quote",
    "road_sign",
    "user_sign",
]

OPEN, CLOSE = "“”"  # round words that would else be read as a sign
LETTER_SIGNS = {
    ".": "staccato", "~": "roll", "H": "fermata", "L": "accent", "M": "lowermordent", "O": "coda",
    "P": "uppermordent", "S": "segno", "T": "trill", "u": "upbow", "v": "downbow",
}  # fmt: skip
MARKS: dict[str, Mark] = {"fermata": "hold", "invertedfermata": "hold"}
# Words over a chord that speak of it.
MARK_WORDS: dict[str, Mark] = {
    "hold": "hold", "stop": "stop", "push": "push", "push 16": "push16", "late": "late", "accent": "accent",
}  # fmt: skip
ROAD_SIGNS = {
    "segno": "segno", "coda": "coda", "dacoda": "to coda", "fine": "fine", "dacapo": "dc", "d.c.": "dc",
    "d.s.": "ds", "d.c.alcoda": "dc al coda", "d.c.alfine": "dc al fine", "d.s.alcoda": "ds al coda",
    "d.s.alfine": "ds al fine",
}  # fmt: skip
ORNAMENTS = (
    "trill", "trill(", "trill)", "lowermordent", "uppermordent", "mordent", "pralltriller", "roll", "turn",
    "turnx", "invertedturn", "invertedturnx", "arpeggio", "slide", "tr", "~",
)  # fmt: skip
DYNAMICS = (
    "pppp", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "ffff", "sfz", "sf", "fz", "fp", "crescendo(",
    "crescendo)", "<(", "<)", "diminuendo(", "diminuendo)", ">(", ">)", "cresc.", "dim.", "cresc", "dim",
)  # fmt: skip
TOUCHES = (
    "staccato", "accent", "emphasis", ">", "tenuto", "wedge", "breath", "shortphrase", "mediumphrase",
    "longphrase", "+", "plus", "snap", "^", "marcato",
)  # fmt: skip
BOWS = ("upbow", "downbow", "open", "thumb")
FINGER = re.compile(r"[0-5]{1,4}\Z")
USER = re.compile(r"\s*([H-Wh-w~])\s*=\s*[!+]?([^!+]{1,40})[!+]?\s*\Z")
PLACES = "^_<>@"
NO_CHORD = ("n.c.", "nc", "n.c", "no chord", "tacet")
AT = re.compile(r"@\s*-?[\d.]+\s*,\s*-?[\d.]+\s*")
BRACKETED = re.compile(r"([^();]+?)\s*(?:[(;].*)?\Z")


@dataclass(frozen=True, slots=True)
class Quote:
    """What stands in quotes over a note: a chord, a mark of one, a way through the song, or words.

    Attributes
    ----------
    lost, second : str
        What is told of it, or of a second chord.
    """

    chord: LetterChord | None = None
    is_chord: bool = False
    mark: Mark | None = None
    road: str = ""
    words: str = ""
    lost: str = ""
    second: str = ""


@lru_cache(maxsize=4096)
def read_quote(text: str) -> Quote:
    """Read what stands in quotes; what is no chord is an annotation."""
    placed = text[:1] in PLACES if text else False
    bare = AT.sub("", text) if text.startswith("@") else text[1:] if placed else text
    words = words_of(bare)
    if not placed:
        found = _chord(words)
        if found is not None:
            return found
    if not words or words in PLACES:
        return Quote(lost=TOLD_TOUCHES if text.strip() else "")
    road, mark = road_words(words), MARK_WORDS.get(words.lower())
    if road or mark:
        return Quote(road=road, mark=mark)
    told = _known_loss(words.lower())
    if told:
        return Quote(lost=told)
    return Quote(words=words.removeprefix(OPEN).removesuffix(CLOSE) or words)


def _chord(words: str) -> Quote | None:
    if words.lower() in NO_CHORD:
        return Quote(is_chord=True)
    bare = BRACKETED.match(words)
    for text in dict.fromkeys((words, bare[1] if bare else words)):
        try:
            chord = read_letter_chord(text)
        except ChordFault:
            continue
        second = "" if text == words else "a chord in brackets behind another is left out"
        return Quote(chord, is_chord=True, second=second)
    return None


@lru_cache(maxsize=1024)
def road_words(words: str) -> str:
    """The way through the song that words say, as ``dc al fine``; or nothing."""
    road = Road()
    if not leads(words, road):
        return ""
    if road.jump:
        return road.jump
    named = (road.segno, "segno"), (road.coda_signs, "coda"), (road.to_coda, "to coda"), (road.fine, "fine")
    return next(name for said, name in named if said)


def road_sign(name: str) -> str:
    """The way through the song that a decoration says; or nothing."""
    return ROAD_SIGNS.get(name.lower().replace(" ", ""), "")


TOLD_TOUCHES = "accents and other touches are left out"


def lost(name: str) -> str:
    """What is told of a decoration that a song cannot hold."""
    return _known_loss(name.lower()) or f"the sign '{name[:20]}' is left out"


def _known_loss(name: str) -> str:
    if FINGER.match(name):
        return "fingers without a string are left out"
    if name in ORNAMENTS or name.startswith(("trill", "/")):
        return "ornaments are left out"
    if name in DYNAMICS:
        return "dynamics are left out"
    if name in BOWS:
        return "bowings are left out"
    return TOLD_TOUCHES if name in TOUCHES else ""


def user_sign(text: str) -> tuple[str, str] | None:
    """A letter and the decoration that ``U:`` gives it."""
    match = USER.match(text)
    return (match[1], match[2].strip()) if match else None
