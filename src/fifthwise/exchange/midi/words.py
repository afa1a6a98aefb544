"""Lyric events as syllables of the tune.

A file tells where words end by blanks ("Hel" "lo "), or where they go on by hyphens ("Hel-" "lo"), not both
(RP-017, SMF Lyric Events Definition, MIDI Manufacturers Association 1998, has blanks).
"""

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from fifthwise.exchange.midi.line import TuneNote
from fifthwise.exchange.midi.raw import RawSong, RawText

__all__ = ["syllables_of"]

NEAR = Fraction(1, 4)  # quarters between a syllable and its note
LONGEST = 80  # letters under one note
BREAKS = "/\\"  # of lines and verses


def syllables_of(song: RawSong, tune: Sequence[TuneNote]) -> tuple[dict[int, str], int]:
    """The syllable of each note by its place in the tune, and how many syllables fall on no note."""
    lyrics = _first_verse(song.lyrics)
    found: dict[int, str] = {}
    lost = 0
    starts = [note.start for note in tune]
    for lyric, syllable in zip(lyrics, _syllables([lyric.text for lyric in lyrics]), strict=True):
        at = Fraction(lyric.at, song.ppq)
        place = _nearest(starts, at)
        if place is None or abs(starts[place] - at) > NEAR:
            lost += bool(syllable)
        elif syllable:
            found[place] = _together(found.get(place, ""), syllable)[:LONGEST]
    return found, lost


def _together(first: str, second: str) -> str:
    return f"{first}{second}" if first.endswith("-") else f"{first} {second}".strip()


def _first_verse(lyrics: Sequence[RawText]) -> list[RawText]:
    """The lyrics of the track that has the most; of several at one tick the first."""
    tracks = Counter(lyric.track for lyric in lyrics)
    most = max(tracks, key=lambda track: tracks[track], default=0)
    first: dict[int, RawText] = {}
    for lyric in lyrics:
        if lyric.track == most and lyric.text.strip("\r\n"):
            first.setdefault(lyric.at, lyric)
    return list(first.values())


def _nearest(starts: Sequence[Fraction], at: Fraction) -> int | None:
    after = bisect_left(starts, at)
    near = [place for place in (after - 1, after) if 0 <= place < len(starts)]
    return min(near, key=lambda place: abs(starts[place] - at), default=None)


def _syllables(texts: Sequence[str]) -> list[str]:
    """Syllables with a hyphen where their word goes on."""
    by_blanks = any(text != text.strip() for text in (each.strip("\r\n") for each in texts))
    found = []
    for at, text in enumerate(texts):
        plain = _plain(text)
        following = texts[at + 1] if at + 1 < len(texts) else " "
        goes_on = by_blanks and not (
            text[-1:].isspace() or following[:1].isspace() or following[:1] in BREAKS
        )
        found.append(f"{plain.rstrip('-')}-" if plain.rstrip("-") and goes_on else plain)
    return found


def _plain(text: str) -> str:
    kept = "".join(sign if sign.isprintable() else " " for sign in text)
    return " ".join(kept.strip().strip(BREAKS).replace('"', "'").split())
