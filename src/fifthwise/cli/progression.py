"""A few chords typed on the command line."""

import json
import re
from collections.abc import Callable

import click

from fifthwise.theory import (
    ChordFault,
    Key,
    NumberChord,
    Numbering,
    chord_degrees,
    chord_notes,
    read_chord,
    to_letters,
    write_letters,
    write_number,
    write_roman,
)

__all__ = ["as_json", "convert"]

TOKEN = re.compile(r"\|{1,2}:?|:\|{1,2}|[^\s()|:]+(?:\([^()]*\)[^\s()|:]*)*|\S")
PASSED = re.compile(r"[|:/%0-]+\Z|NC\Z|N\.C\.\Z")
MARKED = re.compile(r"(.*?)((?:\.(?:hold|stop|push16|push|late|accent))*)\Z", re.DOTALL)


def convert(text: str, key: Key, numbering: Numbering, write: Callable[[NumberChord], str]) -> str:
    """Read chords and write each anew; bar lines, rests and marks stay.

    Raises
    ------
    ChordFault
        A chord cannot be read; says which.
    """
    words = []
    for number, token in enumerate(_tokens(text), start=1):
        if PASSED.match(token):
            words.append(token)
            continue
        name, marks = _parted(token)
        words.append(write(_read(name, number, key, numbering)) + marks)
    return " ".join(words)


def _tokens(text: str) -> list[str]:
    tokens = TOKEN.findall(text)
    if not tokens:
        raise click.UsageError("There are no chords to read.")
    return tokens


def _parted(token: str) -> tuple[str, str]:
    match = MARKED.match(token)
    assert match
    return match[1], match[2]


def _read(name: str, number: int, key: Key, numbering: Numbering) -> NumberChord:
    try:
        return read_chord(name, key, numbering)
    except ChordFault as fault:
        raise ChordFault(fault.what, f"chord {number}", fault.fix, fault.mends) from fault


def as_json(text: str, key: Key, numbering: Numbering) -> str:
    """The chords as JSON: each one's number, Roman numeral, letters, notes and degrees."""
    one = numbering.one(key)
    chords = []
    for number, token in enumerate(_tokens(text), start=1):
        if PASSED.match(token):
            continue
        chord = _read(_parted(token)[0], number, key, numbering)
        letters = to_letters(chord, one)
        chords.append(
            {
                "number": write_number(chord, lowers=numbering.lowers(key)),
                "roman": write_roman(chord, lowers=numbering.lowers(key)),
                "letters": write_letters(letters),
                "notes": [str(note) for note in chord_notes(letters)],
                "degrees": [str(degree) for degree in chord_degrees(chord)],
                "bass": str(letters.bass or letters.root),
            }
        )
    return json.dumps({"key": str(key), "one": str(one), "chords": chords}, indent=2, ensure_ascii=False)
