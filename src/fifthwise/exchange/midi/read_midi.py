"""A Standard MIDI File as a lead sheet."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.exchange.errors import EmptyScore
from fifthwise.exchange.lead_sheet import LeadSheet
from fifthwise.exchange.midi.bars import Span, bar_spans, bar_tempos
from fifthwise.exchange.midi.choose import MidiPart, best_part, named_parts
from fifthwise.exchange.midi.chord_text import TimedChord, said_chords
from fifthwise.exchange.midi.chunks import Chunks, split_chunks
from fifthwise.exchange.midi.grid import Moved
from fifthwise.exchange.midi.heads import head_of
from fifthwise.exchange.midi.hear_key import HeardKey, durations, heard_key, key_of_chords
from fifthwise.exchange.midi.keys import bar_keys, key_told
from fifthwise.exchange.midi.opening import opened
from fifthwise.exchange.midi.raw import RawSong, RawText
from fifthwise.exchange.midi.read_track import read_song
from fifthwise.exchange.midi.sheet_chords import ChordSource, find_harmony
from fifthwise.exchange.midi.sheet_tune import NO_TUNE, tune_of
from fifthwise.exchange.midi.tell import other_parts, part_told, texts_told, tune_told
from fifthwise.exchange.midi.to_sheet import Laid, cues_of, lead_bars, sections_of
from fifthwise.theory import Key

__all__ = ["ReadMidi", "read_midi"]


@dataclass(frozen=True, slots=True)
class ReadMidi:
    """A MIDI file, read.

    Attributes
    ----------
    sheet : LeadSheet
        Its chords, and the part that was chosen as its tune.
    parts : tuple of MidiPart
        Every part, in the order of the file.
    chosen : MidiPart or None
        The tune; ``None`` where there is none.
    key : Key
        In which the song begins.
    key_is_said : bool
        Whether the file or the caller names it.
    found : HeardKey or None
        The key as its chords say or its notes sound; ``None`` where they show none.
    chords : {'said', 'found', 'none'}
        Whether the file spells its chords, or they were found from its notes.
    moved : Moved
        How much the tune was moved to put it on a grid.
    """

    sheet: LeadSheet
    parts: tuple[MidiPart, ...]
    chosen: MidiPart | None
    key: Key
    key_is_said: bool
    found: HeardKey | None
    chords: ChordSource
    moved: Moved


def read_midi(
    data: bytes, file: str = "song.mid", *, part: str | None = None, key: Key | None = None
) -> ReadMidi:
    """Read a Standard MIDI File of format 0 or 1.

    Parameters
    ----------
    file : str
        The name under which faults are told.
    part : str or None
        The key or the name of the part that is the tune; ``None`` lets the file choose.
    key : Key or None
        In which the song begins; ``None`` takes the file's, or finds it.

    Raises
    ------
    TooLarge
        It has more than is read.
    UnreadableFile
        It is no MIDI file, is broken, or cannot be read as a song.
    EmptyScore
        It has neither notes nor chords.
    UnknownPart
        No part is called so.
    """
    chunks = split_chunks(data, file)
    song = read_song(chunks, file)
    parts = named_parts(song)
    chosen = best_part(song, parts, part, file)
    said, texts, markers = said_chords(song)
    spans, told = _spans(song, said, markers, file)
    found = key_of_chords(said, spans[-1].end) or heard_key(durations(song.parts))
    keys = bar_keys(song, spans, key, found)
    tempos, tempo_told = bar_tempos(song, spans)
    tune = NO_TUNE if chosen is None else tune_of(song, song.parts[chosen], spans)
    chords, chords_told = said, ""
    if not said:
        chords, chords_told = find_harmony(song, parts, chosen, tune.under, spans, keys)
    title, by, others = head_of(song, texts, file)
    sections = sections_of(markers, spans, song.ppq)
    laid = Laid(
        spans, tempos, keys, tune.notes, tune.syllables, chords, sections, cues_of(song.cues, spans, song.ppq)
    )
    the_tune = None if chosen is None else parts[chosen]
    left_out = (
        *_tracks_told(chunks), *told, *tempo_told, *key_told(song, keys[0], key, found),
        *([chords_told] if chords_told else []), *tune_told(tune),
        *([] if chosen is None else part_told(song.parts[chosen])),
        *other_parts(parts, the_tune), *texts_told(others, song.copyright),
    )  # fmt: skip
    source: ChordSource = "said" if said else "found" if chords else "none"
    sheet = LeadSheet(title, lead_bars(laid), by, left_out=left_out)
    is_said = bool(song.keys) or key is not None
    return ReadMidi(sheet, parts, the_tune, keys[0], is_said, found, source, tune.moved)


def _spans(
    song: RawSong, said: Sequence[TimedChord], markers: Sequence[RawText], file: str
) -> tuple[tuple[Span, ...], list[str]]:
    """The bars that sound, and what was settled about them."""
    notes = [note for part in song.parts for note in part.notes]
    starts = [Fraction(min(note.start for note in notes), song.ppq)] if notes else []
    ends = [Fraction(max(note.end for note in notes), song.ppq)] if notes else []
    starts += [at for at, chord in said[:1] if chord is not None]
    ends += [at + Fraction(1, song.ppq) for at, _ in said]
    if not starts:
        raise EmptyScore("the file has no notes", file, "Export it again with its music")
    marks = [Fraction(marker.at, song.ppq) for marker in markers]
    spans, told = bar_spans(song, max(ends), file, marks)
    kept, opening = opened(spans, min(starts))
    return kept, [*told, *opening]


def _tracks_told(chunks: Chunks) -> list[str]:
    if chunks.promised <= len(chunks.tracks):
        return []
    return [f"the file promises {chunks.promised} tracks and has {len(chunks.tracks)}"]
