"""370 songs as whole charts, against what the source and mir_eval say of them.

Burgoyne, Wild and Fujinaga, "An Expert Ground Truth Set for Audio Chord Recognition and Music Analysis",
ISMIR 2011: the songs. Raffel et al., "mir_eval", ISMIR 2014: what their labels sound.
"""

import functools

import mir_eval
import pytest

from fifthwise.chart import parse, read_chart, rekey, unfold, write_chart
from fifthwise.exchange import read_letter_chart
from fifthwise.theory import (
    NoteName,
    Numbering,
    pitch_classes,
    read_chord,
    read_letter_chord,
    to_letters,
    without_doubles,
    write_letters,
)
from tests.harte import pop_songs, read_harte
from tests.outside.pop_song_text import bar_count, letter_chart, moved, number_chart, sounding

TONICS = [NoteName(fifths) for fifths in range(-7, 8)]
CHUNK = 37
CHUNKS = [range(start, start + CHUNK) for start in range(0, 370, CHUNK)]
in_chunks = pytest.mark.parametrize("places", CHUNKS, ids=lambda places: f"{places.start}-{places.stop - 1}")


@functools.cache
def what_sounds(label):
    """The pitch classes of a label, the bass included, and that of the bass, by mir_eval."""
    root, bitmap, bass = mir_eval.chord.encode(label, reduce_extended_chords=True)
    low = int(root + bass) % 12
    return frozenset(int(root + place) % 12 for place in bitmap.nonzero()[0]) | {low}, low


@functools.cache
def read_song(place):
    """One of the songs, written as a number chart and read."""
    return read_chart(number_chart(pop_songs()[place], f"song {place}"))


def in_order(chart, song):
    """Each chord of the timeline beside what the source says of it."""
    timeline, wanted = unfold(chart), sounding(song)
    assert len(timeline.bars) == bar_count(song)
    assert len(timeline.entries) == len(wanted)
    return list(zip(timeline.entries, wanted, strict=True))


@in_chunks
def test_every_song_is_read_and_written_again(places):
    """A song's text has no fault; written out and read again it is the same chart."""
    for place in places:
        reading = read_song(place)
        assert reading.faults == ()
        assert parse(write_chart(reading.chart)) == reading.chart


@in_chunks
def test_every_song_plays_its_bars_and_chords(places):
    """Unfolded, each chord has the source's place, length, spelling and bass."""
    for place in places:
        for entry, wanted in in_order(read_song(place).chart, pop_songs()[place]):
            chord = read_harte(wanted.label)
            assert (entry.length, entry.bar, entry.key.tonic) == (wanted.length, wanted.bar, wanted.tonic)
            assert entry.kind == ("nc" if chord is None else "chord")
            assert chord is None or to_letters(entry.chord, wanted.tonic) == chord


@in_chunks
def test_every_song_is_called_in_fifteen_keys(places):
    """In each key every chord is the source's, moved as the tonic is: by name, and by sound in mir_eval."""
    for place in places:
        chart = read_song(place).chart
        pairs = in_order(chart, pop_songs()[place])
        for tonic in TONICS:
            entries = unfold(rekey(chart, tonic)).entries
            calls = {
                (entry.key, entry.chord, wanted.label, wanted.tonic)
                for entry, (_, wanted) in zip(entries, pairs, strict=True)
                if entry.chord is not None
            }
            semitones = 7 * (tonic.fifths - chart.key.tonic.fifths)
            for call in calls:
                check_call(*call, semitones)


@functools.cache
def check_call(key, number, label, tonic, semitones):
    """One chord of a song in a key: its name, its sound, and its way back to the number."""
    chord = to_letters(number, key.tonic)
    assert abs(key.signature) <= 7
    assert chord == moved(read_harte(label), key.tonic.fifths - tonic.fifths)
    notes, bass = what_sounds(label)
    assert pitch_classes(chord) == {(note + semitones) % 12 for note in notes}
    assert (chord.bass or chord.root).pitch_class == (bass + semitones) % 12
    if written_with_doubles_at_most(chord):
        assert read_chord(write_letters(chord), key, Numbering()) == number
    else:
        assert pitch_classes(read_letter_chord(write_letters(without_doubles(chord)))) == pitch_classes(chord)


def written_with_doubles_at_most(chord):
    """Whether letters can write the chord: ##4, which the source once writes in Gb, is F### in C#."""
    return all(abs(note.alter) <= 2 for note in (chord.root, chord.bass) if note is not None)


@in_chunks
def test_every_song_typed_in_letters_is_imported(places):
    """Its letters become the numbers of the number chart: the same bars, chords and lengths, nothing told."""
    for place in places:
        reading = read_letter_chart(letter_chart(pop_songs()[place], f"song {place}"), "song.txt")
        assert reading.faults == reading.notices == ()
        assert parse(write_chart(reading.chart)) == reading.chart
        found, wanted = unfold(reading.chart), unfold(read_song(place).chart)
        assert len(found.bars) == len(wanted.bars)
        assert found.entries == wanted.entries


def test_the_songs_hold_what_is_hard():
    """All are there, with keys and metres that change, bars of another metre, long repeats and split bars."""
    songs = pop_songs()
    assert len(songs) == 370
    assert (sum(map(bar_count, songs)), sum(len(sounding(song)) for song in songs)) == (37_566, 47_950)
    assert sum(changes(song, "tonic") for song in songs) == 30
    assert sum(changes(song, "metre") for song in songs) == 4
    once = [bar for song in songs for event in song for bar in event.get("bars", ()) if bar[0] == "("]
    assert len(once) == 287


def changes(song, name):
    """Whether a song's tonic or metre is not the same throughout."""
    return len({event[name] for event in song if name in event}) > 1
