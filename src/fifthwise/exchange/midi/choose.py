"""Which part of a file is its tune.

A tune sounds for half of the song or more, one note at a time, moving, above others, and where a singer or a
fiddle can reach; its name or its words may say so. What each of these is worth is ours, measured in
``bench/midi_reading.py``; the features are near those of Rizo et al., "A Pattern Recognition Approach for
Melody Track Selection in MIDI Files", ISMIR 2006.
"""

import re
from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from fifthwise.exchange.errors import UnknownPart
from fifthwise.exchange.midi.raw import RawPart, RawSong

__all__ = ["MidiPart", "best_part", "named_parts"]

LOWEST, HIGHEST = 50, 91  # MIDI: D3 to G6
OUT_OF_RANGE, UNDER_OTHERS, WITH_WORDS = 0.3, 0.2, 4.0
ENOUGH = 0.5  # share of the song; a tune rests as much
MOVING = 1.0  # notes a sounding quarter; what has fewer holds chords or plays a bass
TUNE_NAMED, OTHER_NAMED, BASS_PROGRAM = 3.0, 0.4, 0.3
TUNE_NAME = re.compile(r"\b(melod\w*|tune|voice|vocals?|vox|lead|song|singer|soprano|solo)\b", re.IGNORECASE)
OTHER_NAME = re.compile(
    r"\b(bass|chords?|pads?|comp|drums?|percussion|harmony|backing|accomp\w*|rhythm|left|lh)\b", re.IGNORECASE
)
CHORDS_NAME = re.compile(r"\b(chords?|pads?|comp|accomp\w*|rhythm)\b", re.IGNORECASE)  # none is a tune
BASSES = range(32, 40)
# The sixteen families of General MIDI Level 1 (MIDI Manufacturers Association, 1991), eight programs each.
FAMILIES = (
    "Piano", "Chromatic percussion", "Organ", "Guitar", "Bass", "Strings", "Ensemble", "Brass", "Reed",
    "Pipe", "Synth lead", "Synth pad", "Synth effects", "Folk instrument", "Percussion", "Sound effects",
)  # fmt: skip
MOST_NAMED = 12
MOST_LYRICS = 500  # that are held against every part


@dataclass(frozen=True, slots=True)
class MidiPart:
    """A part of a file that may be its tune.

    Attributes
    ----------
    key : str
        What asks for it: its track's number, with the channel's behind a slash where the track has several.
    name : str
        The track's, else its family of instruments.
    notes : int
        How many it has.
    lowest, highest : int
        MIDI numbers.
    is_drums : bool
        Whether it can be no tune.
    """

    key: str
    name: str
    notes: int
    lowest: int
    highest: int
    is_drums: bool


def named_parts(song: RawSong) -> tuple[MidiPart, ...]:
    """The parts of a song, in its order."""
    tracks = [part.track for part in song.parts]
    found = []
    for part in song.parts:
        key = str(part.track) if tracks.count(part.track) == 1 else f"{part.track}/{part.channel}"
        family = "Drums" if part.is_drums else FAMILIES[part.program // 8]
        midis = [note.midi for note in part.notes]
        found.append(MidiPart(key, part.name or family, len(midis), min(midis), max(midis), part.is_drums))
    return tuple(found)


def best_part(song: RawSong, parts: Sequence[MidiPart], wanted: str | None, file: str) -> int | None:
    """The place of the part asked for by its key or its name, or of the one that most speaks for.

    Returns
    -------
    int or None
        ``None`` where there are only drums, and parts that are called chords.

    Raises
    ------
    UnknownPart
        No part is called so.
    """
    places = [at for at, part in enumerate(parts) if not part.is_drums]
    if wanted is not None:
        asked = wanted.strip().casefold()
        named = [at for at in places if parts[at].key == asked]
        named = named or [at for at in places if parts[at].name.casefold() == asked]
        if not named:
            known = ", ".join(f"'{parts[at].key}' ({parts[at].name})" for at in places[:MOST_NAMED])
            raise UnknownPart(f"there is no part '{wanted[:40]}'", file, f"Write one of {known or 'none'}")
        places = named
    else:
        places = [at for at in places if not CHORDS_NAME.search(parts[at].name)]
    if not places:
        return None
    weights = _weights(song, parts)
    return max(places, key=lambda at: weights[at])


def _weights(song: RawSong, parts: Sequence[MidiPart]) -> list[float]:
    ranks = _ranks(song)
    whole = max((note.end for part in song.parts for note in part.notes), default=1)
    found = []
    for part, named, rank in zip(song.parts, parts, ranks, strict=True):
        sounding, alone = _sounding(part)
        weight = min(sounding / whole / ENOUGH, 1.0) * (alone / sounding)
        weight *= min(len(part.notes) * song.ppq / sounding / MOVING, 1.0)
        weight *= _fits(part) * (UNDER_OTHERS + (1 - UNDER_OTHERS) * rank) * _said(part, named)
        found.append(weight * (1.0 + WITH_WORDS * _sung(part, song)))
    return found


def _sounding(part: RawPart) -> tuple[int, int]:
    """Ticks in which the part sounds, and in which one note of it sounds alone."""
    changes = sorted([(n.start, 1) for n in part.notes] + [(n.end, -1) for n in part.notes])
    sounding = alone = now = before = 0
    for at, by in changes:
        sounding += (at - before) * (now > 0)
        alone += (at - before) * (now == 1)
        now, before = now + by, at
    return max(sounding, 1), alone + sounding // 10


def _fits(part: RawPart) -> float:
    """How much of it can be sung or fiddled; the rest counts less."""
    inside = sum(LOWEST <= note.midi <= HIGHEST for note in part.notes) / len(part.notes)
    return inside + (1 - inside) * OUT_OF_RANGE


def _ranks(song: RawSong) -> list[float]:
    """How much of what begins with them in the same quarters lies below each part's notes, 0 to 1."""
    highest = [{} if part.is_drums else _highest(part, song.ppq) for part in song.parts]
    beats: dict[int, list[int]] = {}
    for part in highest:
        for beat, midi in part.items():
            beats.setdefault(beat, []).append(midi)
    return [_rank(part, beats) for part in highest]


def _rank(part: Mapping[int, int], beats: Mapping[int, list[int]]) -> float:
    below = together = 0
    for beat, midi in part.items():
        others = beats[beat]
        together += len(others) - 1
        below += sum(other <= midi for other in others) - 1
    return below / together if together else 1.0


def _highest(part: RawPart, ppq: int) -> dict[int, int]:
    """The highest note that begins in each quarter, as far as a tune reaches."""
    found: dict[int, int] = {}
    for note in part.notes:
        if note.midi <= HIGHEST:
            beat = note.start // ppq
            found[beat] = max(found.get(beat, 0), note.midi)
    return found


def _said(part: RawPart, named: MidiPart) -> float:
    """What the name and the instrument say."""
    weight = 1.0
    if OTHER_NAME.search(named.name):
        weight = OTHER_NAMED
    elif TUNE_NAME.search(named.name):
        weight = TUNE_NAMED
    return weight * (BASS_PROGRAM if part.program in BASSES else 1.0)


def _sung(part: RawPart, song: RawSong) -> float:
    """The share of syllables that fall on its notes, less where it has more than twice as many notes."""
    if not song.lyrics:
        return 0.0
    lyrics = song.lyrics[:MOST_LYRICS]
    near = song.ppq // 16
    starts = sorted({note.start for note in part.notes if note.start <= lyrics[-1].at + near})
    met = sum(
        bisect_right(starts, lyric.at + near) > bisect_left(starts, lyric.at - near) for lyric in lyrics
    )
    return met / max(len(lyrics), len(starts) / 2)
