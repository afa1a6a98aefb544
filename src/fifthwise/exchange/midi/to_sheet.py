"""Bars, tune, chords and words put together as a lead sheet's bars."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.exchange.lead_sheet import LeadBar, LeadChord, LeadNote
from fifthwise.exchange.midi.bars import Span, bar_at
from fifthwise.exchange.midi.chord_text import TimedChord
from fifthwise.exchange.midi.line import TuneNote
from fifthwise.exchange.midi.raw import RawText
from fifthwise.exchange.midi.spell import spell_line, spelled, spelled_class
from fifthwise.theory import Key, SpelledPitch

__all__ = ["Laid", "cues_of", "lead_bars", "sections_of"]

SEMITONES = 12
EIGHTH, NEAR = Fraction(1, 2), Fraction(1, 8)  # a chord so near to an eighth begins on it
MOST_TEXTS = 4  # of a kind that a bar has
LAST_BEAT = 1  # quarters; a marker in the last one of a bar means the next


@dataclass(frozen=True, slots=True)
class Laid:
    """What stands where, in quarters.

    Attributes
    ----------
    tempos, keys : sequence
        One a bar.
    syllables : mapping
        By a note's place in the tune.
    sections, cues : mapping
        By the bar's place.
    """

    spans: Sequence[Span]
    tempos: Sequence[Fraction | None]
    keys: Sequence[Key]
    tune: Sequence[TuneNote]
    syllables: Mapping[int, str]
    chords: Sequence[TimedChord]
    sections: Mapping[int, str]
    cues: Mapping[int, tuple[str, ...]]


def lead_bars(laid: Laid) -> tuple[LeadBar, ...]:
    """One lead bar a span."""
    notes: list[list[LeadNote]] = [[] for _ in laid.spans]
    for bar, note in _notes(laid):
        notes[bar].append(note)
    chords: list[list[LeadChord]] = [[] for _ in laid.spans]
    for at, chord in laid.chords:
        place = _on_eighth(at)
        bar = bar_at(laid.spans, place)
        chords[bar].append(LeadChord(max(place - laid.spans[bar].start, Fraction(0)), chord))
    return tuple(
        LeadBar(
            span.metre,
            span.length,
            laid.keys[at],
            tuple(chords[at]),
            tuple(notes[at]),
            laid.tempos[at],
            laid.sections.get(at, ""),
            words=laid.cues.get(at, ()),
        )
        for at, span in enumerate(laid.spans)
    )


def _on_eighth(at: Fraction) -> Fraction:
    near = Fraction(round(at / EIGHTH)) * EIGHTH
    return near if abs(at - near) <= NEAR else at


def _notes(laid: Laid) -> Iterator[tuple[int, LeadNote]]:
    """Each note in each bar in which it sounds."""
    bars = [bar_at(laid.spans, note.start) for note in laid.tune]
    keys = [laid.keys[bar] for bar in bars]
    tops = spell_line([note.midis[-1] for note in laid.tune], keys)
    for at, (note, bar, top) in enumerate(zip(laid.tune, bars, tops, strict=True)):
        low = tuple(_spelled(midi, laid.keys[bar]) for midi in note.midis[:-1])
        graces = tuple(_spelled(midi, laid.keys[bar]) for midi in note.graces)
        pitches = (*low, top)
        while bar < len(laid.spans) and laid.spans[bar].start < note.end:
            span = laid.spans[bar]
            start, goes_on = max(note.start, span.start), note.start < span.start
            yield bar, LeadNote(
                start - span.start, min(note.end, span.end) - start, pitches, goes_on,
                grace=() if goes_on else graces, syllable="" if goes_on else laid.syllables.get(at, ""),
            )  # fmt: skip
            bar += 1


def _spelled(midi: int, key: Key) -> SpelledPitch:
    return spelled(midi, spelled_class(midi % SEMITONES, key))


def sections_of(markers: Sequence[RawText], spans: Sequence[Span], ppq: int) -> dict[int, str]:
    """The section that begins at each bar, by its place; the first few names at one bar are joined."""
    found: dict[int, list[str]] = {}
    for marker in markers:
        at = Fraction(marker.at, ppq)
        bar = bar_at(spans, at)
        is_late = spans[bar].end - at < LAST_BEAT and at > spans[bar].start
        _keep(found.setdefault(min(bar + is_late, len(spans) - 1), []), marker.text)
    return {bar: ", ".join(names) for bar, names in found.items()}


def cues_of(cues: Sequence[RawText], spans: Sequence[Span], ppq: int) -> dict[int, tuple[str, ...]]:
    """The words for the band in each bar, the first few."""
    found: dict[int, list[str]] = {}
    for cue in cues:
        _keep(found.setdefault(bar_at(spans, Fraction(cue.at, ppq)), []), cue.text)
    return {bar: tuple(texts) for bar, texts in found.items()}


def _keep(texts: list[str], text: str) -> None:
    if len(texts) < MOST_TEXTS and text not in texts:
        texts.append(text)
