"""Folk melodies of music21's corpus on a staff, against music21's own account of their notes.

The corpus' licence is not stated: it is read where music21 lies, and never copied.
"""

from fractions import Fraction
from pathlib import Path

import music21
import pytest

from fifthwise.exchange import LeadBar, LeadNote, LeadSheet, chart_of_sheet
from fifthwise.page.staff import engrave_staff, staff_mei
from fifthwise.theory import Key, Numbering, read_metre, read_note, read_pitch
from tests.page.staff.sounds import NEAR, heard, plain, staff_of

FOLDER = Path(music21.corpus.__file__).parent
TUNES = [
    *sorted((FOLDER / "ryansMammoth").glob("*.abc"))[::80],
    *sorted((FOLDER / "airdsAirs").glob("*.abc"))[:1],
]
MOST = 14


def scores():
    """A fixed sample of tunes as music21 reads them."""
    found = []
    for path in TUNES:
        read = music21.converter.parse(path, forceSource=True)
        opus = read.scores if isinstance(read, music21.stream.Opus) else [read]
        found += [pytest.param(s, id=f"{path.stem}-{at}") for at, s in enumerate(list(opus)[:2]) if whole(s)]
    return found[:MOST]


def whole(score):
    """Whether no bar within a tune has been given a metre of its own for being cut short."""
    signatures = score.recurse().getElementsByClass(music21.meter.TimeSignature)
    return all(signature.denominator in (2, 4, 8) for signature in signatures)


def name_of(pitch):
    """A pitch in our spelling."""
    return pitch.nameWithOctave.replace("-", "b")


def sheet_of(score):
    """A lead sheet of a score's bars, made without a reader of ours."""
    bars, metre, key = [], read_metre("4/4"), Key(read_note("C"))
    for measure in score.parts[0].getElementsByClass(music21.stream.Measure):
        if measure.timeSignature:
            metre = read_metre(measure.timeSignature.ratioString)
        for signature in measure.getElementsByClass(music21.key.KeySignature):
            key = Key(read_note(signature.asKey("major").tonic.name.replace("-", "b")))
        notes = tuple(
            LeadNote(
                Fraction(note.offset).limit_denominator(96),
                Fraction(note.quarterLength).limit_denominator(96),
                tuple(read_pitch(name_of(pitch)) for pitch in note.pitches),
                goes_on=note.tie is not None and note.tie.type != "start",
            )
            for note in measure.notes
            if not note.duration.isGrace
        )
        length = Fraction(measure.duration.quarterLength).limit_denominator(96)
        if length:
            bars.append(LeadBar(metre, length, key, notes=notes))
    return LeadSheet("Folk", tuple(bars))


@pytest.mark.parametrize("score", scores())
def test_a_folk_tune_sounds_on_a_staff_as_music21_plays_it(score):
    """Each note of the tune is there, at its time and as long as it lasts, and can be drawn."""
    part = score.parts[0].flatten().stripTies()
    meant = sorted(
        (float(note.offset), pitch.midi, float(note.quarterLength))
        for note in part.notes
        if not note.duration.isGrace
        for pitch in note.pitches
    )
    staff = staff_of(plain(chart_of_sheet(sheet_of(score), Numbering()).chart))
    played = heard(staff_mei(staff))
    assert len(played) == len(meant)
    assert len({a[1] - b[1] for a, b in zip(played, meant, strict=True)}) == 1
    for (at, _, lasts), (onset, _, length) in zip(played, meant, strict=True):
        assert abs(at - onset) < NEAR
        assert abs(lasts - length) < NEAR
    assert sum(len(system.bars) for system in engrave_staff(staff, 54)) == len(staff.bars)
