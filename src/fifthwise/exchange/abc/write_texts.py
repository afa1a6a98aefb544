"""Texts as ABC holds them."""

from fifthwise.exchange.abc.signs import CLOSE, OPEN, read_quote

__all__ = ["annotation", "field_text", "syllable_text"]

ESCAPED = str.maketrans({"\\": "\\\\", "%": "\\%", "&": "\\&", "\n": " ", "\r": " "})
# What has no escape of its own in words is written as an entity.
SYLLABLE = str.maketrans(
    {
        "\\": "\\\\", "%": "\\%", "&": "\\&", " ": "~", "-": "\\-",
        "_": "&#95;", "*": "&#42;", "|": "&#124;", "~": "&#126;",
    }
)  # fmt: skip


def field_text(text: str) -> str:
    """A text of a field."""
    return text.translate(ESCAPED)


def annotation(words: str) -> str:
    """Words over a note, in quotes of their own where they would be taken for a sign."""
    read = read_quote("^" + field_text(words))
    said = words if read.words == words else f"{OPEN}{words}{CLOSE}"
    return '"^' + field_text(said.replace('"', "'")) + '"'


def syllable_text(syllable: str) -> str:
    """A syllable; a hyphen at its end says that the word goes on."""
    goes_on = syllable.endswith("-") and len(syllable) > 1
    text = (syllable[:-1] if goes_on else syllable).translate(SYLLABLE)
    return text + "-" if goes_on else text + " "
