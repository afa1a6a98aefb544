"""What a chart in letters says of its song: title, key, tempo, metre and the like."""

import re
from typing import NamedTuple

__all__ = ["Field", "read_fields"]

# The names that people give to a field, by the name of the head's.
NAMES = {
    "title": "title", "song": "title", "by": "by", "artist": "by", "author": "by", "composer": "by",
    "written by": "by", "writer": "by", "music": "by", "key": "key", "tempo": "tempo", "bpm": "tempo",
    "time": "meter", "time signature": "meter", "meter": "meter", "metre": "meter", "feel": "feel",
    "style": "feel", "groove": "feel", "rhythm": "feel", "capo": "capo", "form": "form", "order": "form",
    "structure": "form", "arrangement": "form", "tags": "tags",
}  # fmt: skip
KEY_TEXT = r"[A-G](?:b|#|♭|♯)?\s*(?:m|minor|min|major|maj|dorian|mixolydian|lydian|phrygian|aeolian)?"
FIELD = re.compile(rf"(?<![\w-])({'|'.join(sorted(NAMES, key=len, reverse=True))})\s*[:=]\s*", re.IGNORECASE)
# Lines that are a field without a colon.
WHOLE = tuple(
    (name, re.compile(rf"[(\[]?{pattern}[)\]]?\Z", re.IGNORECASE))
    for name, pattern in (
        ("key", rf"(?:in\s++(?:the\s++)?)?key\s++(?:of|is|change(?:\s++to)?)?\s*+({KEY_TEXT})"),
        ("key", rf"mod(?:ulate|ulation)?\s++(?:up\s++)?to\s++({KEY_TEXT})"),
        ("tempo", r"(?:[♩♪]\.?|q|tempo)\s*+=?\s*+(?:about|ca\.?|c\.)?\s*+(\d{2,3}(?:\.\d+)?)(?:\s*bpm)?"),
        ("tempo", r"(\d{2,3}(?:\.\d+)?)\s*bpm"),
        ("meter", r"(?:time\s+|met(?:er|re)\s+)?(\d{1,2}/\d{1,2}(?:\s+\d(?:\+\d)+)?)(?:\s+time)?"),
        ("capo", r"capo\s++(\D*+\d.*?|none|no)"),
        ("by", r"by\s+(\S.*?)"),
    )
)


# What stands between commas, strokes or wide gaps.
PIECE = re.compile(r"[^\s,;|](?:[^\s,;|]|[ ](?![ ]))*")


class Field(NamedTuple):
    """A field of the song; ``column`` is that of its text, from 1, ``named`` that of its name."""

    name: str
    text: str
    column: int
    named: int


def read_fields(text: str) -> list[Field]:
    """Read a line as one or more fields; an empty list where it is none.

    Pieces with commas or wide gaps between them are read one by one where each is a field.
    """
    pieces = [(match[0], match.start()) for match in PIECE.finditer(text)]
    apart = [_fields(piece, at) for piece, at in pieces]
    if len(pieces) > 1 and all(apart):
        return [field for fields in apart for field in fields]
    return _fields(text, 0)


def _fields(text: str, at: int) -> list[Field]:
    """Read a piece that begins ``at`` characters into its line."""
    start = at + len(text) - len(text.lstrip())
    plain = text.strip()
    for name, pattern in WHOLE:
        match = pattern.match(plain)
        if match:
            return [Field(name, match[1].strip(), start + match.start(1) + 1, start + 1)]
    matches = list(FIELD.finditer(plain))
    if not matches or matches[0].start():
        return []
    if NAMES[matches[0][1].lower()] in ("title", "by", "form", "tags"):
        matches = matches[:1]
    ends = [match.start() for match in matches[1:]] + [len(plain)]
    return [
        Field(
            NAMES[match[1].lower()],
            plain[match.end() : end].strip(" \t,;|"),
            start + match.end() + 1,
            start + match.start() + 1,
        )
        for match, end in zip(matches, ends, strict=True)
    ]
