"""Tunes of music21's corpus, and what music21 reads in them.

They are read where they lie, never copied: their licence is not stated.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

import music21
from music21 import abcFormat, chord, key, meter, note

from fifthwise.exchange.abc import ReadTune, read_abc

COLLECTIONS = ("airdsAirs", "oneills1850", "ryansMammoth")
ROOT = Path(music21.__file__).parent / "corpus"
QUOTED = re.compile(r'"[^"\n]*"')


@dataclass(frozen=True)
class Melody:
    """What is compared: notes as their pitches and lengths, low to high; signatures and metres."""

    notes: tuple[tuple[tuple[str, ...], Fraction], ...]
    signature: int
    metre: str


@cache
def tune_texts():
    """The text of every tune, as (file, text)."""
    found = []
    for name in COLLECTIONS:
        for path in sorted((ROOT / name).rglob("*.abc")):
            text = path.read_text(encoding="utf-8", errors="replace")
            found += [(path.name, tune) for tune in re.split(r"(?m)^(?=X:)", text) if tune.startswith("X:")]
    return tuple(found)


def spelled(pitch):
    """A pitch of ours as music21 writes it."""
    name = pitch.name
    return name.letter + ("#" * name.alter if name.alter > 0 else "-" * -name.alter) + str(pitch.octave)


def our_melody(tune: ReadTune):
    """The melody of a tune that we have read."""
    bars = tune.sheet.bars
    notes = [(tuple(map(spelled, n.pitches)), n.length, n.goes_on) for bar in bars for n in bar.notes]
    return Melody(_joined(notes), bars[0].key.signature, str(bars[0].metre).split()[0])


def ours(text):
    """The melody that we read in a tune's text."""
    return our_melody(read_abc(text, "tune.abc").tunes[0])


def m21_score(text):
    """What music21 reads in a tune's text."""
    handler = abcFormat.ABCFile().readstr(text)
    return abcFormat.translate.abcToStreamScore(handler)


def theirs(text):
    """The melody that music21 reads in a tune's text; signature and metre where they are first written."""
    return m21_melody(m21_score(text))


def m21_melody(score):
    """The melody of the first part of a score of music21."""
    part = score.parts[0]
    notes = [
        (tuple(p.nameWithOctave for p in sorted(each.pitches)), Fraction(each.quarterLength), _goes_on(each))
        for each in part.recurse().getElementsByClass((note.Note, chord.Chord))
        if not each.duration.isGrace and not isinstance(each, music21.harmony.Harmony)
    ]
    keys = list(part.recurse().getElementsByClass(key.KeySignature))
    metres = list(part.recurse().getElementsByClass(meter.TimeSignature))
    return Melody(_joined(notes), keys[0].sharps if keys else 0, metres[0].ratioString if metres else "none")


def _goes_on(each):
    return each.tie is not None and each.tie.type in ("stop", "continue")


def _joined(notes):
    """Notes with those that are tied together: music21 parts what is longer than its bar."""
    found = []
    for pitches, length, goes_on in notes:
        if goes_on and found and found[-1][0] == pitches:
            found[-1] = (pitches, found[-1][1] + length)
        else:
            found.append((pitches, length))
    return tuple(found)


def _music(change):
    """A change of the lines of music alone."""

    def changed(text):
        head, key_line, body = text.partition("\nK:")
        first, _, rest = body.partition("\n")
        lines = [
            line if re.match(r"[A-Za-z+]:(?![|:])|%", line) else change(line) for line in rest.split("\n")
        ]
        return head + key_line + first + "\n" + "\n".join(lines)

    return changed


# Why music21 reads otherwise, and what takes the reason out of a tune's text, for both readers.
REASONS = {
    "music21 loses broken rhythm beside a slur": _music(lambda line: re.sub(r"\((?!\d)|\)", "", line)),
    "music21 loses broken rhythm beside a tie": _music(lambda line: line.replace("-", "")),
    "music21 loses broken rhythm beside a grace": _music(lambda line: re.sub(r"\{[^}]*\}", "", line)),
    "music21 loses notes behind a sign": _music(lambda line: re.sub(r"[.~H-Wu-v]", "", QUOTED.sub("", line))),
    "music21 takes old line ends for signs": _music(lambda line: line.replace("!", "")),
    "music21 loses a note before a double repeat": _music(lambda line: line.replace("::", ":| |:")),
    "music21 reads 3// as 3/": _music(lambda line: re.sub(r"(\d)//", r"\1/4", line)),
    "music21 takes a bracket with words for a chord": _music(lambda line: re.sub(r'\["[^"]*"', "", line)),
    "music21 takes what is no field for music": lambda text: re.sub(
        r"(?m)^[^%:\n][^:\n].*\n(?=[^|]*^K:)", "", text
    ),
    "music21 reads parts once": lambda text: re.sub(r"(?m)^P:.*\n", "", text),
    "music21 keeps chords of three notes": _music(lambda line: re.sub(r"\[\^?[A-Ga-g][^\]|]*\]", "z", line)),
}
CARRIED = "music21 loses an accidental that holds to the end of its bar"
SAME = "the same"
NOT_HELD = "%%propagate-accidentals not\n"


def why(text):
    """Why music21 reads a tune otherwise; ``SAME`` where it does not, ``None`` where no reason is known."""
    mine, other = ours(text), theirs(text)
    if mine == other:
        return SAME
    for reason, without in (("", str), *REASONS.items()):
        text = without(text)
        mine, other = ours(text), theirs(text)
        if mine == other:
            return reason
        if _are_carried(mine, ours(NOT_HELD + text), other):
            return CARRIED
    return None


def _are_carried(mine, alone, other):
    """Whether each note is as we read it, or as it would be if no accidental held beyond its note."""
    if (mine.signature, mine.metre, len(mine.notes)) != (other.signature, other.metre, len(other.notes)):
        return False
    if len(alone.notes) != len(other.notes):
        return False
    return all(note in pair for note, *pair in zip(other.notes, mine.notes, alone.notes, strict=True))
