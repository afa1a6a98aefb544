"""MIDI files made by mido, read as songs."""

import struct
from fractions import Fraction

import pytest
from mido import Message

from fifthwise.exchange.errors import UnknownPart
from fifthwise.exchange.midi import read_midi
from fifthwise.theory import read_key
from tests.exchange.midi.files import PPQ, charted, filed, line, meta, notes, played, read, track

HEAD = track(
    meta(0, "set_tempo", tempo=625000),
    meta(0, "time_signature", numerator=3, denominator=4),
    meta(0, "key_signature", key="Eb"),
    name="Harbour Lights",
)
TUNE = (67, 70, 75, 74, 72, 70)


def test_a_song_has_its_title_key_metre_tempo_and_tune():
    """The conductor's track says what holds, the notes are counted in its key."""
    text = charted(HEAD, track(*line(*TUNE), name="Voice"))
    assert text.startswith("---\ntitle: Harbour Lights\nkey: Eb\nmeter: 3/4\ntempo: 96\n")
    assert "tune: 3 5 1' | 7 6 5" in text


def test_format_0_is_parted_by_channel():
    """All in one track: the tune is found among its channels, and asked for as track/channel."""
    song = track(*line(*TUNE), *line(*(39, 0, 0) * 2, channel=1), meta(0, "key_signature", key="Eb"))
    found = read_midi(filed(song, kind=0), "song.mid")
    assert [part.key for part in found.parts] == ["1/1", "1/2"]
    assert found.chosen == found.parts[0]
    other = read_midi(filed(song, kind=0), "song.mid", part="1/2")
    assert [midis for *_, midis in played(other.sheet)] == [(39,), (39,)]


def test_running_status_is_read():
    """A second note without a status of its own is a note (Standard MIDI Files 1.0)."""
    events = bytes([0, 0x90, 60, 64, 96, 60, 0, 0, 62, 64, 96, 62, 0, 0, 0xFF, 0x2F, 0])
    data = b"MThd" + struct.pack(">LHHH", 6, 0, 1, 96) + b"MTrk" + struct.pack(">L", len(events)) + events
    assert played(read_midi(data).sheet) == [(0, 1, (60,)), (1, 1, (62,))]


def test_drums_are_never_the_tune():
    """Channel 10 has drums (General MIDI Level 1), however busy it is."""
    drums = track(*line(*[76] * 32, length=Fraction(1, 2), channel=9), name="Melody")
    found = read(HEAD, drums, track(*line(*TUNE), name="Strings"))
    assert found.chosen.name == "Strings"
    with pytest.raises(UnknownPart, match="there is no part 'melody'"):
        read(HEAD, drums, track(*line(*TUNE), name="Strings"), part="melody")


def test_a_part_is_asked_for_by_name_or_number():
    """Case does not count; an unknown name is told with those that are there."""
    tracks = HEAD, track(*line(*TUNE), name="Voice"), track(*line(51, 55, 58), name="Cello")
    assert read(*tracks, part="cello").chosen.name == read(*tracks, part="3").chosen.name == "Cello"
    with pytest.raises(UnknownPart, match=r"song.mid: .*'lute'\. Write one of '2' \(Voice\), '3' \(Cello\)"):
        read(*tracks, part="lute")


def test_metre_key_and_tempo_change_where_the_file_says():
    """A change is a mark at its bar; the numbers go on in the new key."""
    head = track(
        meta(0, "time_signature", numerator=4, denominator=4), meta(0, "key_signature", key="C"),
        meta(0, "set_tempo", tempo=500000), meta(4, "time_signature", numerator=6, denominator=8),
        meta(4, "key_signature", key="D"), meta(4, "set_tempo", tempo=600000),
    )  # fmt: skip
    text = charted(head, track(*line(60, 62, 64, 65), *line(62, 64, start=4, length=1.5)))
    assert "tempo: 120" in text
    assert "tune: 1 2 3 4 | 1 2" in text
    for mark in ("[key D]", "[meter 6/8]", "[tempo 67]"):
        assert mark in text


def test_markers_are_sections():
    """FF 06 names what begins at its bar (Standard MIDI Files 1.0: "First Verse")."""
    head = track(meta(0, "marker", text="Verse"), meta(8, "marker", text="Chorus"))
    text = charted(head, track(*line(*[60, 62, 64, 65] * 4)))
    assert "# Verse" in text
    assert "# Chorus" in text


@pytest.mark.parametrize(
    "syllables",
    [["Lan", "tern ", "road ", "home"], ["Lan-", "tern", "road", "home"], ["Lan", "tern", " road", " home"]],
)
def test_lyrics_stand_under_their_notes(syllables):
    """Blanks part words, or hyphens join them (RP-017 has blanks)."""
    words = [meta(at, "lyrics", text=text) for at, text in enumerate(syllables)]
    found = read(HEAD, track(*words), track(*line(67, 70, 75, 74)))
    kept = [note.syllable for bar in found.sheet.bars for note in bar.notes]
    assert kept == ["Lan-", "tern", "road", "home"]


@pytest.mark.parametrize("kind", ["text", "marker"])
def test_chords_that_are_spelled_win(kind):
    """Texts that are chords are the song's chords, and nothing is made up from the notes."""
    names = ["Eb", "Bb7/D", "N.C.", "Fm7"]
    chords = track(*[meta(at * 3, kind, text=name) for at, name in enumerate(names)])
    song = HEAD, chords, track(*line(*TUNE, *TUNE)), track(*notes(*[(0, 12, 60), (0, 12, 64), (0, 12, 67)]))
    found = read(*song)
    assert found.chords == "said"
    assert "1 | 57/7 | NC | 2-7" in charted(*song)


def test_letters_that_name_sections_are_no_chords():
    """Markers A and B are sections, and a song without a key gets none from them."""
    head = track(meta(0, "marker", text="A"), meta(4, "marker", text="B"))
    found = read(head, track(*line(60, 62, 64, 65, 67, 65, 64, 62)))
    assert [bar.section for bar in found.sheet.bars] == ["A", "B"]
    assert found.chords == "none"


def test_parts_called_chords_are_no_tune():
    """A file of chords alone has no tune, unless the part is asked for."""
    chords = track(*notes((0, 4, 60), (0, 4, 64), (0, 4, 67)), name="Chords")
    found = read(chords)
    assert (found.chosen, found.chords, played(found.sheet)) == (None, "found", [])
    assert "'Chords' (1) is left out: 3 notes" in found.sheet.left_out
    assert read(chords, part="chords").chosen == found.parts[0]


def test_chords_are_found_from_the_other_parts():
    """Triads of a piano become the chords of their half bars, equal ones once, and that is told."""
    piano = [(0, (48, 60, 64, 67)), (4, (41, 60, 65, 69)), (6, (43, 59, 62, 65)), (8, (40, 60, 64, 67))]
    rows = [(at, 4 if at in (0, 8) else 2, midi) for at, midis in piano for midi in midis]
    found = read(track(*line(*[72, 74, 76, 74] * 3), name="Voice"), track(*notes(*rows), name="Piano"))
    assert found.chords == "found"
    assert "the chords were found from the notes of 'Piano'; check them" in found.sheet.left_out
    text = charted(track(*line(*[72, 74, 76, 74] * 3), name="Voice"), track(*notes(*rows), name="Piano"))
    assert "1 | 4 57 | 1/3" in text


def test_a_key_is_found_where_none_is_said():
    """What was found is told with the next best; a key that is asked for is taken."""
    scale = track(*line(63, 65, 67, 68, 70, 72, 74, 75, 70, 67, 63, 63))
    found = read(scale)
    assert (found.key.short, found.key_is_said) == ("Eb", False)
    assert any(said.startswith("the file names no key; Eb was found, else ") for said in found.sheet.left_out)
    assert read(scale, key=read_key("Cm")).key == read_key("Cm")


def test_a_key_signature_against_the_notes_is_told():
    """Many programs write C whatever the key: the file is believed, and the doubt is said."""
    song = track(
        meta(0, "key_signature", key="C"), *line(*[69, 73, 76, 81, 80, 78, 76, 74, 73, 71, 68, 69] * 2)
    )
    assert "the file says that the key is C; it sounds like A" in read(song).sheet.left_out


def test_pitches_are_spelled_by_the_key():
    """In E the sharps are sharps, in Ab the flats flats; a raised note that leads up is sharp."""

    def names(key, *midis):
        found = read(track(meta(0, "key_signature", key=key), *line(*midis)))
        return " ".join(
            str(pitch) for bar in found.sheet.bars for note in bar.notes for pitch in note.pitches
        )

    assert names("E", 64, 66, 68, 70, 71, 73, 75, 76) == "E4 F#4 G#4 A#4 B4 C#5 D#5 E5"
    assert names("Ab", 68, 70, 72, 73, 75, 77, 79, 80) == "Ab4 Bb4 C5 Db5 Eb5 F5 G5 Ab5"
    assert names("C", 60, 61, 62, 70, 69, 68, 67) == "C4 C#4 D4 Bb4 A4 Ab4 G4"


def test_overlapping_notes_are_cut_and_lower_ones_left_out():
    """Played legato one note ends the other; what lies under the tune is told."""
    legato = track(*notes((0, 1.1, 60), (1, 1.1, 62), (2, 1, 64)))
    assert played(read(legato).sheet) == [(0, 1, (60,)), (1, 1, (62,)), (2, 1, (64,))]
    chords = track(*notes((0, 4, 72), (0, 4, 64), (0, 4, 67), (1, 1, 60), (4, 2, 74)))
    found = read(chords)
    assert played(found.sheet) == [(0, 4, (72,)), (4, 2, (74,))]
    assert "3 notes under the tune left out: the highest is kept" in found.sheet.left_out


def test_double_stops_and_graces_are_kept():
    """Two notes of equal length are one double stop, a quick one before a note its grace note."""
    found = read(
        track(
            *notes(
                (0, 1, 67),
                (0, 1, 74),
                (1, Fraction(15, 16), 71),
                (Fraction(31, 16), Fraction(1, 16), 72),
                (2, 2, 74),
            )
        )
    )
    first, _, last = (note for bar in found.sheet.bars for note in bar.notes)
    assert [pitch.midi for pitch in first.pitches] == [67, 74]
    assert [pitch.midi for pitch in last.grace] == [72]


def test_a_note_over_the_bar_line_is_tied():
    """It is one note in two bars."""
    text = charted(track(meta(0, "key_signature", key="C"), *notes((0, 3, 60), (3, 3, 64), (6, 2, 67))))
    assert "tune: 1 - - 3 | - - 5 -" in text


def test_notes_that_never_end_are_cut_and_told():
    """Each lasts to the next one of its channel."""
    song = track((0, Message("note_on", note=60)), (PPQ, Message("note_on", note=62)), *line(64, start=2))
    found = read(song)
    assert played(found.sheet) == [(0, 1, (60,)), (1, 1, (62,)), (2, 1, (64,))]
    assert "2 notes of the tune never ended; cut at the next" in found.sheet.left_out


def test_a_note_struck_again_before_it_ends_is_two():
    """On before off at one tick, as some files have it, loses none."""
    again = [(0, Message("note_on", note=60)), (PPQ, Message("note_on", note=60))]
    again += [(PPQ, Message("note_off", note=60)), (2 * PPQ, Message("note_off", note=60))]
    assert played(read(track(*again)).sheet) == [(0, 1, (60,)), (1, 1, (60,))]


@pytest.mark.parametrize("at", [3, 7])
def test_first_notes_at_the_end_of_a_bar_are_a_pickup(at):
    """Silent bars before them are left out and told."""
    song = track(meta(0, "key_signature", key="C"), *line(67, 72, 72, 74, 76, start=at))
    assert "[pickup 1]" in charted(song)
    told = read(song).sheet.left_out
    assert "the first notes stand at the end of a bar; they are a pickup" in told
    assert ("1 silent bar at the start left out" in told) == (at == 7)


def test_a_short_first_metre_is_a_pickup():
    """A bar of 1/4 before 4/4 is how files write a pickup."""
    head = track(
        meta(0, "time_signature", numerator=1, denominator=4),
        meta(1, "time_signature", numerator=4, denominator=4),
    )
    assert "[pickup 1]" in charted(head, track(*line(67, 72, 72, 74, 76)))


def test_sections_within_bars_tell_a_pickup():
    """Where all markers but the first stand on beat 2, beat 1 was a pickup; one that strays tells nothing."""
    tune = track(*line(*[67, 72, 72, 74, 76] * 5))
    marks = [meta(at, "marker", text=text) for at, text in ((1, "Verse"), (9, "Chorus"), (17, "Verse 2"))]
    text = charted(track(*marks), tune)
    assert "[pickup 1]" in text
    assert "# Chorus" in text
    assert "[pickup" not in charted(track(*marks, meta(19, "marker", text="Out")), tune)


def test_a_played_tempo_is_averaged():
    """A tempo that changes at every bar is how somebody played; one tempo is kept, and that is told."""
    head = track(*[meta(4 * at, "set_tempo", tempo=500000 + 60000 * (at % 2)) for at in range(20)])
    found = read(head, track(*line(*[60, 62, 64, 65] * 20)))
    assert [bar.tempo_bpm for bar in found.sheet.bars if bar.tempo_bpm] == [Fraction(113)]
    assert any("its mean is kept" in said for said in found.sheet.left_out)


@pytest.mark.parametrize("title", ["Träume", "灯の道", "Лампа", "A’s – ♭"])
def test_names_in_any_script_are_read(title):
    """UTF-8 is read as what it is; latin-1, which mido writes, as latin-1."""
    raw = title.encode("utf-8").decode("latin-1")
    assert read(track(name=raw), track(*line(60, 62))).sheet.title == title
    assert read(track(name="Träume"), track(*line(60, 62))).sheet.title == "Träume"
