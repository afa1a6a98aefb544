"""Title and author, as far as a file has them, and the texts that are left when these are taken."""

import re
from collections.abc import Sequence

from fifthwise.exchange.midi.raw import RawSong, RawText

__all__ = ["head_of"]

# Names that tracks have from programs, not from people.
NO_TITLE = re.compile(
    r"(?:untitled|conductor|tempo|control|master|default|global|meta|midi|track|channel|seq|sequence|new)\b"
    r"|[\d\W]*\Z",
    re.IGNORECASE,
)
BY = re.compile(r"by:?\s+(?P<name>\S.*)\Z", re.IGNORECASE)


def head_of(song: RawSong, texts: Sequence[RawText], file: str) -> tuple[str, str, list[RawText]]:
    """The title, the author (empty where none is named), and the other texts.

    The title is the first track's name, where it has no notes or is the only one; else the file's name.
    """
    name = song.names[0] if song.names else ""
    tracks = {part.track for part in song.parts}
    is_title = bool(name) and not NO_TITLE.match(name) and (1 not in tracks or tracks == {1})
    title = name if is_title else file.replace("\\", "/").rpartition("/")[2].rpartition(".")[0]
    by = next((text for text in texts if text.at == 0 and BY.match(text.text)), None)
    match = BY.match(by.text) if by else None
    others = [text for text in texts if text is not by and not (text.at == 0 and text.text == title)]
    return title, match["name"] if match else "", others
