"""What there is to sing: the notes of the unfolded song, each counted from the home key's tonic.

Only distances are kept, so one tune serves every key. A modulation is in the distances: a 1 after
``[key +2]`` lies a whole step above home. The unmarked 1 of a new key is the one nearest to the home
key's, up where two are as near (a tritone).

Beats are felt beats: a half in x/2, a quarter in x/4, a dotted quarter in 6/8 and its kin, and a quarter
in uneven eighths. Of notes sounded together the highest is sung; chops and grace notes are not sung.
"""

from dataclasses import dataclass
from fractions import Fraction

from fifthwise.chart import Chart, Timeline, TunePitch
from fifthwise.theory import (
    Degree,
    Interval,
    Key,
    Numbering,
    SpelledPitch,
    degree_interval,
    move_key,
    nearest_interval,
    transpose,
)
from fifthwise.voice.errors import NoTune

__all__ = ["SungNote", "SungTune", "sung_pitch", "sung_tune"]

MEND = "Write its tune in 'tune:' lines, or 'lowest:' and 'highest:' in the head, as in 'lowest: 5,'"


@dataclass(frozen=True, slots=True)
class SungNote:
    """One sung note.

    Attributes
    ----------
    above_home : Interval
        From the home key's tonic, octaves included.
    beats : Fraction
        Felt beats; where the tune's lengths are not known, the beats for which its key holds.
    degree : Degree
        Its number in the key that holds.
    lift : int
        Semitones from the home key up to the key that holds, -5 to 6.
    """

    above_home: Interval
    beats: Fraction
    degree: Degree
    lift: int = 0


@dataclass(frozen=True, slots=True)
class SungTune:
    """All that is sung in a song.

    Attributes
    ----------
    home : Key
        The key in which it is written.
    notes : tuple of SungNote
        At least one.
    timed : bool
        Whether lengths are known; not where only the lowest and highest note are.
    one : Interval
        From the tonic to the unmarked 1 next to it.
    written : SpelledPitch or None
        The tonic where the tune is written; ``None`` where it floats.
    """

    home: Key
    notes: tuple[SungNote, ...]
    timed: bool = True
    one: Interval = Interval(0, 0)  # noqa: RUF009 - frozen
    written: SpelledPitch | None = None

    def __post_init__(self) -> None:
        if not self.notes:
            raise NoTune("there is nothing to sing", "tune", MEND)

    @property
    def low(self) -> int:
        """Semitones from the tonic to the lowest note."""
        return min(note.above_home.semitones for note in self.notes)

    @property
    def high(self) -> int:
        """Semitones from the tonic to the highest note."""
        return max(note.above_home.semitones for note in self.notes)


def sung_tune(chart: Chart, timeline: Timeline) -> SungTune:
    """Take what is sung from a song and its playing order.

    The tune of sections that have words counts; where no section has both, every ``tune:`` line does.
    Where there is no tune, ``lowest`` and ``highest`` of the head stand for it, in each key that holds,
    by the time for which it holds.

    Raises
    ------
    NoTune
        The song has neither a tune nor both its ends.
    """
    numbering = chart.numbering
    one = nearest_interval(numbering.one(chart.key).fifths - chart.key.tonic.fifths)
    notes = _written_notes(chart, timeline, _instrumental(chart))
    timed = bool(notes)
    written = None
    if chart.octave is not None:
        written = transpose(SpelledPitch(numbering.one(chart.key).fifths, chart.octave), -one)
    return SungTune(chart.key, notes or _end_notes(chart, timeline), timed, one, written)


def sung_pitch(note: SungNote, key: Key, tonic: SpelledPitch) -> SpelledPitch:
    """Spell a note when the song is in ``key`` with its tonic at ``tonic``.

    After a modulation it is spelled in the key that then holds, in the fewest accidentals.
    """
    pitch = transpose(tonic, note.above_home)
    if not note.lift:
        return pitch
    moved = move_key(key, note.lift, sharps=key.signature > 0)
    turn = (moved.tonic.fifths - key.tonic.fifths - nearest_interval(7 * note.lift).fifths) // 12
    return transpose(pitch, Interval(12 * turn, -7 * turn))


def _instrumental(chart: Chart) -> frozenset[int]:
    """The sections without words, where another has words and a tune: a fiddle's intro is not sung."""
    tuned = {i for i, section in enumerate(chart.sections) if any(bar.tune for bar in section.bars)}
    worded = {i for i in tuned if any(line.words for line in chart.sections[i].lines)}
    return frozenset(tuned - worded if worded else ())


def _written_notes(chart: Chart, timeline: Timeline, silent: frozenset[int]) -> tuple[SungNote, ...]:
    found = []
    for event in timeline.notes:
        if timeline.bars[event.bar].section in silent:
            continue
        sung = [_note(chart, event.key, pitch, Fraction(0)) for pitch in event.note.pitches]
        if event.note.kind == "note" and sung:
            top = max(sung, key=lambda note: note.above_home.semitones)
            beats = event.length / timeline.bars[event.bar].metre.tempo_unit
            found.append(SungNote(top.above_home, beats, top.degree, top.lift))
    return tuple(found)


def _end_notes(chart: Chart, timeline: Timeline) -> tuple[SungNote, ...]:
    """The lowest and highest note in each key that holds."""
    if chart.lowest is None or chart.highest is None:
        missing = "" if chart.lowest is chart.highest else " but one of its ends"
        raise NoTune(f"the song has no tune{missing}", chart.title, MEND)
    held: dict[Key, Fraction] = {}
    for bar in timeline.bars:
        held[bar.key] = held.get(bar.key, Fraction(0)) + bar.length / bar.metre.tempo_unit
    ends = (chart.lowest, chart.highest)
    return tuple(_note(chart, key, pitch, beats) for key, beats in held.items() for pitch in ends)


def _note(chart: Chart, key: Key, pitch: TunePitch, beats: Fraction) -> SungNote:
    numbering: Numbering = chart.numbering
    home_one = numbering.one(chart.key).fifths
    to_one = nearest_interval(home_one - chart.key.tonic.fifths)
    lift = nearest_interval(numbering.one(key).fifths - home_one)
    above_home = to_one + lift + degree_interval(pitch.degree, pitch.octave)
    return SungNote(above_home, beats, pitch.degree, lift.semitones)
