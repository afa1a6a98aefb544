"""Notation files as songs: which line is the tune is asked where it is open."""

from dataclasses import replace

from fifthwise.errors import FifthwiseError
from fifthwise.exchange.abc import ReadTune, read_abc
from fifthwise.exchange.file_kinds import KIND_NAMES
from fifthwise.exchange.incoming_letters import key_question
from fifthwise.exchange.incoming_made import song_of_sheet
from fifthwise.exchange.incoming_song import Incoming, Option, Question, Wish
from fifthwise.exchange.midi import MidiPart, ReadMidi, read_midi
from fifthwise.exchange.musicxml import ReadScore, ScorePart, read_musicxml

__all__ = ["abc_songs", "midi_songs", "musicxml_songs"]

MOST_OPTIONS = 30
LONGEST_KEY = 8  # other programs write whole hashes
SURE = 0.5
SHARPS = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")


def musicxml_songs(data: bytes, file: str, wish: Wish) -> Incoming:
    """The one song of a MusicXML file."""
    read = read_musicxml(data, file, part=wish.part)
    song = song_of_sheet(read.sheet, file, wish, _which_part(read, wish))
    return Incoming(KIND_NAMES["musicxml"], (song,))


def _which_part(read: ReadScore, wish: Wish) -> tuple[Question, ...]:
    lines = [line for line in read.parts if line.notes]
    if len(lines) < 2:
        return ()
    chosen = read.chosen
    options = tuple(Option(_asked(line, read), line.name, _said(line)) for line in lines[:MOST_OPTIONS])
    others = [line for line in lines if line is not chosen]
    stands_out = any(
        getattr(chosen, sign) and not any(getattr(line, sign) for line in others)
        for sign in ("words", "chords")
    )
    sure = wish.part is not None or stands_out
    return (Question("part", "Which line is the tune?", options, _asked(chosen, read), sure),)


def _asked(line: ScorePart, read: ReadScore) -> str:
    """What asks for a line: its key where that is short, as P2; otherwise its number in the score."""
    return line.key if len(line.key) <= LONGEST_KEY else str(read.parts.index(line) + 1)


def abc_songs(text: str, file: str, wish: Wish) -> Incoming:
    """The songs of an ABC file, one a tune; what is wished for the title is one tune's alone."""
    read = read_abc(text, file, part=wish.part)
    songs, failed = [], []
    for tune in read.tunes:
        where = f"{file}, tune {tune.number}" if tune.number else f"{file}, line {tune.line}"
        own = wish if len(read.tunes) == 1 else replace(wish, title=None)
        try:
            songs.append(song_of_sheet(tune.sheet, where, own, _of_tune(tune, wish)))
        except FifthwiseError as fault:
            failed.append(fault)
    if read.told and songs:
        songs[0] = replace(songs[0], told=(*read.told, *songs[0].told))
    return Incoming(KIND_NAMES["abc"], tuple(songs), tuple(failed))


def _of_tune(tune: ReadTune, wish: Wish) -> tuple[Question, ...]:
    voices = [voice for voice in tune.voices if voice.notes]
    if len(voices) < 2:
        return ()
    options = tuple(
        Option(voice.key, voice.name or voice.key, f"{voice.notes} notes") for voice in voices[:MOST_OPTIONS]
    )
    return (Question("part", "Which voice is the tune?", options, tune.chosen.key, wish.part is not None),)


def midi_songs(data: bytes, file: str, wish: Wish) -> Incoming:
    """The one song of a MIDI file."""
    read = read_midi(data, file, part=wish.part, key=wish.key)
    song = song_of_sheet(read.sheet, file, wish, _of_midi(read, wish))
    return Incoming(KIND_NAMES["midi"], (song,))


def _of_midi(read: ReadMidi, wish: Wish) -> tuple[Question, ...]:
    questions = []
    parts = [part for part in read.parts if not part.is_drums]
    if read.chosen is not None and len(parts) > 1:
        options = tuple(Option(part.key, part.name, _span(part)) for part in parts[:MOST_OPTIONS])
        sure = wish.part is not None
        questions.append(Question("part", "Which part is the tune?", options, read.chosen.key, sure))
    if read.found is not None and not read.key_is_said:
        found = read.found
        questions.append(key_question(found.key, found.runner_up, sure=found.surety >= SURE))
    return tuple(questions)


def _span(part: MidiPart) -> str:
    return f"{part.notes} notes, {_pitch(part.lowest)} to {_pitch(part.highest)}"


def _pitch(midi: int) -> str:
    """A pitch's name, its black keys as sharps."""
    return f"{SHARPS[midi % len(SHARPS)]}{midi // len(SHARPS) - 1}"


def _said(line: ScorePart) -> str:
    said = [f"{line.notes} notes, {line.lowest} to {line.highest}"]
    if line.words:
        said.append("with words")
    if line.chords:
        said.append(f"{line.chords} chords over it")
    return ", ".join(said)
