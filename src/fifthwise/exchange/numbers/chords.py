"""A chord as typed on a number sheet, read as one counted in the key."""

import re
from functools import lru_cache
from typing import NamedTuple

from fifthwise.exchange.numbers.convention import Convention
from fifthwise.theory import (
    ChordFault,
    Degree,
    Key,
    NumberChord,
    Numbering,
    quality_tones,
    read_degree,
    read_number_chord,
    write_number,
)

__all__ = ["Counting", "counting_of", "read_typed", "settled_text"]

FLAT_BEHIND = re.compile(r"([1-7])([b#♭♯]{1,2})(?!\d)")
HAT = re.compile(r"\^(?=\d)")
# A quality in brackets that is no change of a chord: 5(7), 2(-7), 4(maj7).
BRACKETED = re.compile(
    r"\((-7|m7|min7|-|m|min|7sus4?|sus[24]?|13|11|7|M7|maj7|maj9|Δ7?|dim7?|°7?|o7?|ø7?|hdim|\+|aug)\)"
)
DOMINANT = re.compile(r"([1-7])dom(?=\d|\Z)")
MAJOR_SIX = re.compile(r"(?:maj|M)(?=6)")
SAYS_MAJOR = re.compile(r"[Mm]aj|ma7|M|[Δ△^]")  # 6maj7 has a major third, whatever the scale has
BASS = re.compile(r"(.+)/([b#♭♯]{0,2}[1-7]|[1-7][b#♭♯]{1,2})\Z")
NINE_BASS = re.compile(r"[1-7][^/]*6/9\Z")


class Counting(NamedTuple):
    """What a chord's text needs to be read: the key and the choices that bear on a chord."""

    key: Key
    plain: str
    slash: str
    hat: str
    minor: str


def counting_of(convention: Convention, key: Key) -> Counting:
    """The choices of a convention that bear on a chord."""
    return Counting(key, convention.plain, convention.slash, convention.hat, convention.minor)


def _numbering(counting: Counting) -> Numbering:
    return Numbering(counting.minor)  # type: ignore[arg-type]  # one of MINOR_WAYS


@lru_cache(maxsize=16384)
def read_typed(text: str, counting: Counting) -> NumberChord:
    """Read one chord without its signs.

    Raises
    ------
    ChordFault
        It is no chord; ``mends`` names what may have been meant.
    """
    plain = _as_chart_text(text, counting)
    bass = BASS.match(plain)
    if bass and counting.slash == "chord" and not NINE_BASS.match(plain):
        chord = _read(bass[1], counting)
        return NumberChord(chord.root, chord.quality, _from_root(chord, bass[2]))
    return _read(plain, counting)


def _as_chart_text(text: str, counting: Counting) -> str:
    """Other people's spellings of a chord in those that chart text reads."""
    text = FLAT_BEHIND.sub(_flat_before, text)
    text = HAT.sub("" if counting.hat == "seven" else "maj", text)
    return BRACKETED.sub(r"\1", text)


def _flat_before(match: re.Match[str]) -> str:
    return f"{match[2]}{match[1]}"


def _read(text: str, counting: Counting) -> NumberChord:
    numbering = _numbering(counting)
    key = counting.key
    dominant = DOMINANT.search(text)
    diatonic = counting.plain == "scale" and not dominant and not SAYS_MAJOR.search(text)
    scale = Numbering(numbering.minor, "diatonic").scale(key) if diatonic else ()
    plain = MAJOR_SIX.sub("", DOMINANT.sub(r"\1", text))
    one, lowers = numbering.one(key), numbering.lowers(key)
    try:
        chord = read_number_chord(plain, scale=scale, lowers=lowers, one=one)
    except ChordFault as fault:
        if len(fault.mends) != 1 or " " in fault.mends[0]:
            raise
        chord = read_number_chord(fault.mends[0], scale=scale, lowers=lowers, one=one)
    return NumberChord(chord.root, chord.quality) if chord.bass == chord.root else chord


def _from_root(chord: NumberChord, text: str) -> Degree | None:
    """A bass counted from the chord's root: its own third, fifth or seventh where it has one."""
    bare = FLAT_BEHIND.sub(_flat_before, text)
    away = read_degree(bare)
    if away.alter == 0:
        own = [tone for tone in quality_tones(chord.quality) if tone.steps % 7 + 1 == away.step]
        away = Degree(own[0].fifths) if own else away
    return None if away.fifths == 0 else Degree(chord.root.fifths + away.fifths)


def settled_text(chord: NumberChord, counting: Counting) -> str:
    """A chord as the chart writes it."""
    return write_number(chord, lowers=_numbering(counting).lowers(counting.key))
