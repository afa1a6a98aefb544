"""A tune's voices made into the bars of a lead sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from fifthwise.exchange.abc.raw import RawBar
from fifthwise.exchange.lead_lengths import metre_of
from fifthwise.exchange.lead_sheet import LeadBar, LeadChord, LeadNote
from fifthwise.exchange.left_out import LeftOut
from fifthwise.exchange.road import jumps, settle_codas, together

__all__ = ["lead_bars"]

SHORTEST = 2
PARTED = Fraction(4)  # quarters of each piece of a bar that is too long to be one


def lead_bars(
    tune: Sequence[RawBar], chords: Sequence[RawBar], others: Sequence[Sequence[RawBar]], left: LeftOut
) -> Iterator[LeadBar]:
    """One bar after the other: the tune of one voice, the chords of one, the way from them all."""
    voices = [tune, *others]
    roads = [together([voice[at].road for voice in voices if at < len(voice)]) for at in range(len(tune))]
    settle_codas(roads)
    rows = zip(tune, roads, jumps(roads), strict=True)
    for at, (bar, road, jump) in enumerate(rows):
        over = bar if chords is tune else chords[at] if at < len(chords) else None
        found = LeadBar(
            bar.metre or metre_of(bar.length),
            bar.length,
            bar.key,
            tuple(over.chords) if over else (),
            tuple(
                [
                    LeadNote(n.at, n.length, n.pitches, n.goes_on, n.slurred, n.grace, n.syllable)
                    for n in bar.notes
                ]
            ),
            road.tempo_bpm,
            road.section,
            road.repeat_start,
            road.repeat_end,
            road.endings,
            road.ends_ending,
            road.segno,
            road.coda,
            road.to_coda,
            road.fine,
            jump,
            tuple(dict.fromkeys(bar.words if over in (bar, None) else [*bar.words, *over.words])),
        )
        if bar.is_long:
            left.add("a bar longer than a song can hold is parted", str(at + 1))
            metre = bar.metre
            yield from _parted(found, metre.length if metre and metre.length >= SHORTEST else PARTED)
        else:
            yield found


def _parted(bar: LeadBar, length: Fraction) -> Iterator[LeadBar]:
    """A bar in pieces; notes go on over their ends."""
    metre = bar.metre if bar.metre.length == length else metre_of(length)
    notes: dict[int, list[LeadNote]] = {}
    for note in bar.notes:
        for at in range(int(note.at // length), -int(-(note.at + note.length) // length)):
            end = min((at + 1) * length, bar.length)
            notes.setdefault(at, []).append(_within(note, at * length, end))
    chords: dict[int, list[LeadChord]] = {}
    for chord in bar.chords:
        at = int(chord.at // length)
        chords.setdefault(at, []).append(replace(chord, at=chord.at - at * length))
    count = -int(-bar.length // length)
    for at in range(count):
        piece = replace(
            bar,
            metre=metre,
            length=min(length, bar.length - at * length),
            notes=tuple(notes.get(at, ())),
            chords=tuple(chords.get(at, ())),
        )
        if at:
            piece = replace(
                piece, tempo_bpm=None, section="", repeat_start=False, endings=(), segno=False, coda=False,
                words=(),
            )  # fmt: skip
        if at + 1 < count:
            piece = replace(piece, repeat_end=0, ends_ending=False, to_coda=False, fine=False, jump=None)
        yield piece


def _within(note: LeadNote, start: Fraction, end: Fraction) -> LeadNote:
    """What of a note lies in a piece of its bar."""
    at, stop = max(note.at, start), min(note.at + note.length, end)
    if note.at < start:
        note = replace(note, goes_on=True, grace=(), syllable="")
    return replace(note, at=at - start, length=stop - at)
