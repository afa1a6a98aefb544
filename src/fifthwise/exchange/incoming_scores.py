"""Notation files as songs: which line is the tune is asked where it is open."""

from fifthwise.exchange.file_kinds import KIND_NAMES
from fifthwise.exchange.incoming_made import song_of_sheet
from fifthwise.exchange.incoming_song import Incoming, Option, Question, Wish
from fifthwise.exchange.musicxml import ReadScore, ScorePart, read_musicxml

__all__ = ["musicxml_songs"]

MOST_OPTIONS = 30


def musicxml_songs(data: bytes, file: str, wish: Wish) -> Incoming:
    """The one song of a MusicXML file."""
    read = read_musicxml(data, file, part=wish.part)
    song = song_of_sheet(read.sheet, file, wish, _which_part(read, wish))
    return Incoming(KIND_NAMES["musicxml"], (song,))


def _which_part(read: ReadScore, wish: Wish) -> tuple[Question, ...]:
    lines = [line for line in read.parts if line.notes]
    if len(lines) < 2:
        return ()
    options = tuple(Option(line.key, line.name, _said(line)) for line in lines[:MOST_OPTIONS])
    chosen = read.chosen
    others = [line for line in lines if line is not chosen]
    stands_out = any(
        getattr(chosen, sign) and not any(getattr(line, sign) for line in others)
        for sign in ("words", "chords")
    )
    sure = wish.part is not None or stands_out
    return (Question("part", "Which line is the tune?", options, chosen.key, sure),)


def _said(line: ScorePart) -> str:
    said = [f"{line.notes} notes, {line.lowest} to {line.highest}"]
    if line.words:
        said.append("with words")
    if line.chords:
        said.append(f"{line.chords} chords over it")
    return ", ".join(said)
