"""Charts written as MIDI files: other readers find what is played, and we find it again."""

import io
import warnings
from fractions import Fraction
from pathlib import Path

import mido
import pytest
from hypothesis import given, settings

from fifthwise.chart import parse, unfold
from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.errors import EmptyScore
from fifthwise.exchange.midi import read_midi, write_midi
from fifthwise.theory import degree_interval, read_note, to_letters, write_letters
from tests.chart.strategies import charts

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import pretty_midi

ROOT = Path(__file__).parents[3]
SONGS = sorted((*ROOT.glob("demo/*.chart.md"), *ROOT.glob("examples/*.chart.md")))
HEAD = "---\ntitle: {title}\nkey: {key}\ntempo: 120\n---\n"


def song(body, key="C", title="A Song"):
    """A chart of one body."""
    return parse(HEAD.format(title=title, key=key) + body)


def events(data, kind):
    """The events of a kind, with their quarters, as mido reads them."""
    file = mido.MidiFile(file=io.BytesIO(data))
    found = []
    for track in file.tracks:
        now = 0
        for message in track:
            now += message.time
            if message.type == kind:
                found.append((Fraction(now, file.ticks_per_beat), message))
    return found


def sounding(data, channel):
    """The notes of a channel as mido reads them: start, length, MIDI number."""
    open_notes, found = {}, []
    file = mido.MidiFile(file=io.BytesIO(data))
    for track in file.tracks:
        now = 0
        for message in track:
            now += message.time
            if message.type == "note_on" and message.channel == channel:
                assert message.note not in open_notes
                open_notes[message.note] = now
            elif message.type == "note_off" and message.channel == channel:
                start = open_notes.pop(message.note)
                ticks = file.ticks_per_beat
                found.append((Fraction(start, ticks), Fraction(now - start, ticks), message.note))
    assert not open_notes
    return sorted(found)


def meant(chart):
    """The notes of the tune as its degrees say, without grace notes and notes before them."""
    one = 12 * (5 + (4 if chart.octave is None else chart.octave) - 4)
    found = []
    for event in unfold(chart).notes:
        for pitch in event.note.pitches:
            assert event.key == chart.key  # or the 1 would have to be counted anew
            semitones = degree_interval(pitch.degree, pitch.octave).semitones
            midi = one + chart.numbering.one(event.key).pitch_class + semitones
            found.append((event.starts_at, event.length, midi))
    return sorted(found)


@pytest.mark.parametrize("path", SONGS, ids=lambda path: path.name.split(".")[0])
def test_a_song_is_written_note_by_note(path):
    """Every note of the tune stands at its very tick for mido, and pretty_midi has the same notes."""
    chart = parse(path.read_text("utf-8"), path.name)
    data = write_midi(chart)
    found = sounding(data, 0)
    with_graces = any(event.note.grace for event in unfold(chart).notes)
    if not with_graces and all(event.key == chart.key for event in unfold(chart).notes):
        assert found == meant(chart)
    theirs = pretty_midi.PrettyMIDI(io.BytesIO(data))
    tune = [instrument for instrument in theirs.instruments if instrument.name == "Tune"]
    assert sorted(note.pitch for each in tune for note in each.notes) == sorted(midi for *_, midi in found)
    assert all(40 < note.velocity < 90 for each in theirs.instruments for note in each.notes)


@pytest.mark.parametrize("path", SONGS, ids=lambda path: path.name.split(".")[0])
def test_a_song_comes_back_as_it_is_played(path):
    """Out as MIDI and in again, every note of the tune and every chord stands where it stood."""
    chart = parse(path.read_text("utf-8"), path.name)
    data = write_midi(chart)
    found = read_midi(data, path.name, part="Tune" if unfold(chart).notes else None)
    back = chart_of_sheet(found.sheet, chart.numbering).chart
    assert spelled(back) == spelled(chart)
    if unfold(chart).notes:
        again = sounding(write_midi(back), 0)
        first = sounding(data, 0)
        assert [(s - again[0][0], n, m) for s, n, m in again] == [
            (s - first[0][0], n, m) for s, n, m in first
        ]


def spelled(chart):
    """Which chords are heard in what order, in letters; one that is struck again goes on."""
    found = []
    for entry in unfold(chart).entries:
        one = chart.numbering.one(entry.key)
        name = "" if entry.chord is None else write_letters(to_letters(entry.chord, one))
        if not found or found[-1] != name:
            found.append(name)
    return found


@settings(deadline=None, max_examples=60)
@given(charts())
def test_any_chart_is_written_and_read(chart):
    """Whatever a chart holds, its file is sound, its notes are in range, and it reads as a song."""
    data = write_midi(chart)
    for channel in (0, 1):
        assert all(length > 0 for _, length, _ in sounding(data, channel))
    try:
        read_midi(data)
    except EmptyScore:
        assert not unfold(chart).notes
        assert all(entry.chord is None for entry in unfold(chart).entries)


def test_what_holds_is_written():
    """Metre, tempo, key, sections, words for the band and chords stand where they begin."""
    chart = song('# Verse\n1 | [meter 3/4] [tempo 90] "softly" 4-7\n# Chorus\n[key D] 5/7 | NC\n', key="Eb")
    data = write_midi(chart)
    assert [(at, m.key) for at, m in events(data, "key_signature")] == [(0, "Eb"), (7, "D")]
    metres = [(at, m.numerator, m.denominator) for at, m in events(data, "time_signature")]
    assert metres == [(0, 4, 4), (4, 3, 4), (7, 4, 4)]
    assert [(at, m.tempo) for at, m in events(data, "set_tempo")] == [(0, 500000), (4, 666667), (7, 500000)]
    assert [(at, m.text) for at, m in events(data, "marker")] == [(0, "Verse"), (7, "Chorus")]
    assert [(at, m.text) for at, m in events(data, "cue_marker")] == [(4, "softly")]
    texts = [(at, m.text) for at, m in events(data, "text")]
    assert texts == [(0, "Eb"), (4, "Abm7"), (7, "A/C#"), (11, "N.C.")]


def test_repeats_and_jumps_are_played_out():
    """The file has its bars in playing order."""
    data = write_midi(song("# A\n|: 1 | [1.] 4 :| [2.] 5 ||\n# B x2\n6-\n"))
    assert [m.text for _, m in events(data, "text")] == ["C", "F", "C", "G", "Am", "Am"]
    assert [m.text for _, m in events(data, "marker")] == ["A", "B", "B"]


def test_pushed_stopped_and_silent_chords_last_as_they_sound():
    """A push sounds an eighth early and ends the chord before it, a stop is short, a rest is silent."""
    found = sounding(write_midi(song("# A\n1 | 4.push | 5.stop | 1 / 0 /\n")), 1)
    spans = sorted({(start, length) for start, length, _ in found})
    half = Fraction(1, 2)
    assert spans == [(0, 4 - half), (4 - half, 4 + half), (8, half), (12, 2)]


def test_chords_lie_close_about_middle_c():
    """The tones of a chord lie within an octave about middle C, its root or bass below."""
    for name, bass in (("1", 48), ("57", 43), ("5/7", 47), ("2-7", 38), ("4maj7", 41), ("513", 43)):
        midis = [midi for *_, midi in sounding(write_midi(song(f"# A\n{name}\n")), 1)]
        assert midis[0] % 12 == bass % 12
        assert 36 <= midis[0] < 48
        assert all(54 <= midi < 66 for midi in midis[1:])
        assert 3 <= len(midis) - 1 <= 5


def test_it_is_played_in_the_key_that_is_named():
    """Transposed, tune and chords move alike, and the signature names the new key."""
    chart = song("# A\n1 5\ntune: 1 3 5 1'\n")
    up = write_midi(chart, tonic=read_note("Eb"))
    assert [m.key for _, m in events(up, "key_signature")] == ["Eb"]
    assert [m.text for _, m in events(up, "text")] == ["Eb", "Bb"]
    moved = {b[2] - a[2] for a, b in zip(sounding(write_midi(chart), 0), sounding(up, 0), strict=True)}
    assert moved == {3}


@pytest.mark.parametrize("title", ["Träume", "灯の道", "Лампа ♭", "Ã©", "A’s – song"])
def test_titles_in_any_script_go_there_and_back(title):
    """Latin-1 where that is enough, UTF-8 elsewhere; no letter is lost and nothing raises."""
    assert read_midi(write_midi(song("# A\n1 | 4\n", title=title))).sheet.title == title


def test_words_go_there_and_back():
    """Syllables stand at their notes; read again, they are the same words."""
    chart = song("# A\n1 | 4\ntune: 1 2 3 4 | 5 4 3 -\nwords: Lan-tern road is | long to home\n")
    assert [m.text for _, m in events(write_midi(chart), "lyrics")] == [
        "Lan-",
        "tern",
        "road",
        "is",
        "long",
        "to",
        "home",
    ]
    (section,) = chart_of_sheet(read_midi(write_midi(chart)).sheet).chart.sections
    assert section.lines[0].words == ("Lantern road is | long to home",)


def test_graces_go_there_and_back():
    """A grace note is taken from the note before, and given back when it is read."""
    chart = song("# A\n1\ntune: 1 2 {4}3 5\n")
    found = sounding(write_midi(chart), 0)
    assert found[1:3] == [(1, Fraction(15, 16), 62), (Fraction(31, 16), Fraction(1, 16), 65)]
    back = chart_of_sheet(read_midi(write_midi(chart)).sheet).chart
    assert [n.note for n in unfold(back).notes] == [n.note for n in unfold(chart).notes]


def test_a_pickup_is_a_bar_as_short_as_it():
    """A pickup of one beat is a bar of 1/4, and is read as the pickup that it was."""
    chart = song("# A\n[pickup 1] NC | 1 | 4\ntune: 5 | 1' - - - | 6 - - -\n")
    metres = [(at, m.numerator) for at, m in events(write_midi(chart), "time_signature")]
    assert metres == [(0, 1), (1, 4)]
    back = chart_of_sheet(read_midi(write_midi(chart)).sheet).chart
    assert [bar.pickup for bar in back.sections[0].bars] == [1, None, None]
