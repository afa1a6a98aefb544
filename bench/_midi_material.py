"""What ``bench/midi_reading.py`` reads: pop songs played as MIDI, chorales and fiddle tunes of music21."""

import random
import warnings
from dataclasses import dataclass
from fractions import Fraction
from io import BytesIO

from mido import Message, MetaMessage, MidiFile, MidiTrack

from fifthwise.chart import parse, unfold
from fifthwise.exchange.midi.voicing import voiced
from fifthwise.theory import LetterChord, chord_notes, to_letters
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from music21 import corpus

PPQ = 480
TUNE, PIANO, BASS, PAD = 0, 1, 2, 3
DRUMS = 9
PROGRAMS = {TUNE: 40, PIANO: 0, BASS: 33, PAD: 48}
EIGHTH = Fraction(1, 2)
SET_ON = 9  # the weights of the chord finder were set on every ninth song
MAJOR = (0, 2, 4, 5, 7, 9, 11)
Rows = list[tuple[Fraction, Fraction, int]]  # start and length in quarters, MIDI number


@dataclass(frozen=True)
class Song:
    """A pop song: its bars' edges, and its chords with start and end, in quarters."""

    bars: tuple[tuple[Fraction, Fraction], ...]
    chords: tuple[tuple[Fraction, Fraction, LetterChord | None], ...]
    one: int  # pitch class
    metre: tuple[int, int]


def songs(every):
    """Every so many of the songs that keep one metre, without those on which the weights were set."""
    kept = [labels for number, labels in enumerate(pop_songs()) if number % SET_ON]
    for number, labels in enumerate(kept[::every]):
        chart = parse(number_chart(labels, f"Song {number}"))
        timeline = unfold(chart)
        if any(bar.metre != chart.metre for bar in timeline.bars):
            continue
        bars = tuple((bar.start, bar.start + bar.length) for bar in timeline.bars)
        chords = tuple(
            (e.written_at, e.written_at + e.length,
             None if e.chord is None else to_letters(e.chord, chart.numbering.one(e.key)))
            for e in timeline.entries
        )  # fmt: skip
        one = chart.numbering.one(chart.key).pitch_class
        yield Song(bars, chords, one, (chart.metre.count, chart.metre.unit))


def blocks(song):
    """The chords as they are written."""
    rows = [(s, e - s, midi) for s, e, chord in song.chords if chord for midi in voiced(chord)]
    return {PIANO: rows}


def broken(song, seed):
    """Broken chords, a bass that walks, a tune of which half the notes lie outside, a pad high above."""
    rng = random.Random(seed)
    parts: dict[int, Rows] = {TUNE: [], PIANO: [], BASS: [], PAD: []}
    for at, (start, end, chord) in enumerate(song.chords):
        if chord is None:
            continue
        bass, *tones = voiced(chord)
        following = song.chords[at + 1][2] if at + 1 < len(song.chords) else None
        parts[PAD] += [(start, end - start, tones[-1] + 24)]
        step, place = start, 0
        while step < end:
            length = min(EIGHTH, end - step)
            parts[PIANO].append((step, length, tones[(0, 1, 2, 1)[place % 4] % len(tones)]))
            if place % 2 == 0:
                parts[BASS].append(
                    (step, min(Fraction(1), end - step), _walked(bass, place, step + 1 >= end, following))
                )
            if rng.random() < 0.7:
                parts[TUNE].append((step, length, _sung(rng, song.one, tones)))
            step, place = step + length, place + 1
    return {channel: rows for channel, rows in parts.items() if rows}


def _walked(bass, place, is_last, following):
    if is_last and place and following is not None:
        return voiced(following)[0] - 1
    return bass + (7 if place % 4 == 2 else 0)


def _sung(rng, one, tones):
    if rng.random() < 0.5:
        return 12 + rng.choice(tones)
    return 66 + (one - 66) % 12 - 5 + rng.choice(MAJOR)


def as_midi(parts, metre=(4, 4), key=None, length=0):
    """A file of parts by their channel, each a track without a name, over quarters of drums."""
    tracks = [_track([(0, MetaMessage("time_signature", numerator=metre[0], denominator=metre[1]))])]
    if key is not None:
        tracks[0].insert(0, MetaMessage("key_signature", key=key))
    for channel, rows in parts.items():
        program = Message("program_change", channel=channel, program=PROGRAMS.get(channel, 0))
        tracks.append(_track([(-1, program), *_notes(rows, channel)]))
    if length:
        tracks.append(_track(_notes([(Fraction(at), EIGHTH, 42) for at in range(int(length))], DRUMS)))
    file = BytesIO()
    MidiFile(type=1, ticks_per_beat=PPQ, tracks=tracks).save(file=file)
    return file.getvalue()


def _notes(rows, channel):
    found = []
    for start, length, midi in rows:
        found.append((start, Message("note_on", note=midi, channel=channel)))
        found.append((start + length, Message("note_off", note=midi, channel=channel)))
    return found


def _track(events):
    found, now = MidiTrack(), 0
    for at, message in sorted(events, key=lambda event: (event[0], event[1].type != "note_off")):
        tick = max(round(at * PPQ), 0)
        found.append(message.copy(time=tick - now))
        now = tick
    return found


def chorales(every):
    """Every so many of the chorales in four parts, soprano first, as music21's scores."""
    found = [path for path in corpus.getComposer("bach") if path.suffix in (".mxl", ".xml", ".krn")]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for path in found[::every]:
            score = corpus.parse(path)
            if [part.partName for part in score.parts] == ["Soprano", "Alto", "Tenor", "Bass"]:
                yield score


def fiddle_tunes(files):
    """The tunes of some files, as music21's parts."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for file in files:
            for score in corpus.parse(file).scores:
                if score.parts:
                    yield score


def rows_of(part):
    """The notes of a music21 part."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        flat = part.stripTies().flatten()
    return [
        (
            Fraction(n.offset).limit_denominator(48),
            Fraction(n.quarterLength).limit_denominator(48),
            n.pitches[-1].midi,
        )
        for n in flat.notes
        if n.quarterLength
    ]


def names_of(part):
    """The names of a music21 part's notes, as we write them."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        flat = part.stripTies().flatten()
    return [n.pitches[-1].nameWithOctave.replace("-", "b") for n in flat.notes if n.quarterLength]


def tones_of(chord):
    """A chord's pitch classes."""
    return {note.pitch_class for note in chord_notes(chord)}
