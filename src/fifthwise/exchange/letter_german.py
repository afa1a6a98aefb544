"""Chords in German letters, such as H and Fis, which are told by their names in English ones."""

import re

from fifthwise.exchange.letter_tokens import is_chord

__all__ = ["english_name"]

# H is B, -is sharpens and -es flattens; what is an English word too, such as As and His, is left to words.
GERMAN = re.compile(
    r"(?:(?P<natural>H)|(?P<sharp>[CDFGA])is|(?P<flat>[CDG])es|(?P<short>E)s)(?P<rest>\S{0,12})"
)


def english_name(text: str) -> str | None:
    """A chord in German letters as it is written in English ones; ``None`` where it is none."""
    match = GERMAN.fullmatch(text)
    if match is None:
        return None
    if match["natural"]:
        note = "B"
    elif match["sharp"]:
        note = f"{match['sharp']}#"
    else:
        note = f"{match['flat'] or match['short']}b"
    name = note + match["rest"]
    return name if is_chord(name) else None
