"""Tokens of a tune: degrees with octave marks, double stops, grace notes, slides, chops, and finger pins."""

import re
from functools import lru_cache
from typing import NamedTuple

from fifthwise.chart.model import TunePitch
from fifthwise.theory import Degree, plain_accidentals, read_degree
from fifthwise.theory.numbering import lowered

__all__ = ["TuneWord", "read_fingers", "read_tune_pitch", "read_tune_word"]

PITCH = re.compile(r"(bb|##|b|#)?(\d{1,2})('*|,*)\Z")
WORD = re.compile(r"(?:\{(?P<grace>[^{}]*)\})?(?P<slide>[/\\])?(?P<body>[^{}_/\\]+)(?P<slur>_)?\Z")
PIN = re.compile(r"[A-G][b#]?[0-4T]\Z")
HIGHEST_NUMBER = 15
MOST_OCTAVES = 4


class TuneWord(NamedTuple):
    """One token of a tune: what kind it is, and its pitches, slur, grace notes and slide."""

    kind: str
    pitches: tuple[TunePitch, ...] = ()
    slur: bool = False
    grace: tuple[TunePitch, ...] = ()
    slide: str = ""


@lru_cache(maxsize=4096)
def read_tune_pitch(text: str, *, lowers: bool = False) -> TunePitch | None:
    """Read a degree of a tune such as ``5,`` or ``b3'``; ``None`` if it is none."""
    match = PITCH.match(plain_accidentals(text))
    if not match or not 1 <= int(match[2]) <= HIGHEST_NUMBER or len(match[3]) > MOST_OCTAVES:
        return None
    octaves, step = divmod(int(match[2]) - 1, 7)
    degree: Degree = read_degree(f"{match[1] or ''}{step + 1}")
    marks = match[3].count("'") - match[3].count(",")
    return TunePitch(lowered(degree) if lowers else degree, octaves + marks)


@lru_cache(maxsize=8192)
def read_tune_word(text: str, *, lowers: bool = False) -> TuneWord | None:
    """Read one token of a tune; ``None`` if it is none."""
    if text in ("-", "0", "x"):
        return TuneWord({"-": "hold", "0": "rest", "x": "chop"}[text])
    match = WORD.match(text.replace("’", "'"))
    if not match:
        return None
    pitches = [read_tune_pitch(part, lowers=lowers) for part in match["body"].split("&")]
    graces = [read_tune_pitch(part, lowers=lowers) for part in (match["grace"] or "").split()]
    if match["grace"] is not None and not graces:
        return None
    found = tuple(p for p in pitches if p), tuple(g for g in graces if g)
    if len(found[0]) != len(pitches) or len(found[1]) != len(graces):
        return None
    return TuneWord("note", found[0], bool(match["slur"]), found[1], match["slide"] or "")


def read_fingers(text: str) -> tuple[str, ...] | None:
    """Read a finger pin such as ``A2``, ``D0`` or ``A2&E1``; ``.`` is free, ``None`` is a fault."""
    if text == ".":
        return ()
    pins = tuple(text.split("&"))
    return pins if all(PIN.match(pin) for pin in pins) else None
