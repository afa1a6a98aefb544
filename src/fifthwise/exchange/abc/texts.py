r"""A file's text, and texts in it: their marks over letters (``\"o``), entities and code points.

References
----------
The abc music standard 2.1 (December 2011), 8.2 "Text strings"; from memory.
"""

import html
import re
import unicodedata

from fifthwise.exchange.abc.limits import LARGEST_FILE
from fifthwise.exchange.errors import TooLarge, UnreadableFile
from fifthwise.exchange.plain_texts import plain_line, plain_words

__all__ = ["decoded", "line_of", "words_of"]

# What stands before a letter for the sign over or under it.
MARKS = {
    "`": "\u0300", "'": "\u0301", "^": "\u0302", "~": "\u0303", '"': "\u0308", "=": "\u0304", "u": "\u0306",
    ".": "\u0307", "a": "\u030a", "H": "\u030b", "v": "\u030c", ",": "\u0327", "c": "\u0327", ";": "\u0328",
}  # fmt: skip
WHOLE = {
    "/o": "ø", "/O": "Ø", "/d": "đ", "/D": "Đ", "/l": "ł", "/L": "Ł", "ss": "ß", "ae": "æ", "AE": "Æ",
    "oe": "œ", "OE": "Œ", "aa": "å", "AA": "Å", "th": "þ", "TH": "Þ", "dh": "ð", "DH": "Ð",
}  # fmt: skip
ESCAPE = re.compile(
    r"\\u(?P<code>[0-9A-Fa-f]{4})|\\(?P<whole>/[oOdDlL]|ss|ae|AE|oe|OE|aa|AA|th|TH|dh|DH)"
    r"|\\(?P<mark>[`'^~\"=u.aHv,c;])(?P<letter>[A-Za-z])|\\(?P<plain>[\\&%])"
)
ENTITY = re.compile(r"&#?[A-Za-z0-9]{2,10};")
EXPORT_AGAIN = "Export it again as ABC, as plain text"


def decoded(data: bytes | str, file: str) -> str:
    """The text of a file: UTF-8, or what older files are written in.

    Raises
    ------
    TooLarge
        It has more than is read.
    UnreadableFile
        It is no text.
    """
    if len(data) > LARGEST_FILE:
        what = f"the file has {len(data) / 1e6:.0f} MB; {LARGEST_FILE // 1_000_000} MB of ABC are read"
        raise TooLarge(what, file, "Bring its tunes in parts")
    text = data if isinstance(data, str) else _text(data)
    if "\0" in text:
        raise UnreadableFile("the file is no text", file, EXPORT_AGAIN)
    return text.removeprefix("\ufeff")


def _text(data: bytes) -> str:
    for coding in ("utf-16",) if data[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8", "cp1252"):
        try:
            return data.decode(coding)
        except UnicodeDecodeError:
            continue
    return data.decode("latin-1")


def line_of(text: str) -> str:
    """A text of a field in one line."""
    return plain_line(_read(text))


def words_of(text: str) -> str:
    """A text as it stands between a chart's quotes."""
    return plain_words(_read(text))


def _read(text: str) -> str:
    if "\\" in text:
        text = ESCAPE.sub(_sign, text)
    return ENTITY.sub(lambda entity: html.unescape(entity[0]), text) if "&" in text else text


def _sign(escape: re.Match[str]) -> str:
    if escape["code"]:
        code = int(escape["code"], 16)
        return "" if 0xD800 <= code < 0xE000 else chr(code)  # half of a pair is no sign
    if escape["whole"]:
        return WHOLE[escape["whole"]]
    if escape["letter"]:
        return unicodedata.normalize("NFC", escape["letter"] + MARKS[escape["mark"]])
    return escape["plain"]
