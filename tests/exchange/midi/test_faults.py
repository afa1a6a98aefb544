"""MIDI files that are broken, too large or no songs: each is read or refused, soon and with its place."""

import random
import struct
import time
import tracemalloc

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from mido import Message, MetaMessage

from fifthwise.chart import parse, write_chart
from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.errors import EmptyScore, ExchangeError, TooLarge, UnreadableFile
from fifthwise.exchange.midi import read_midi
from fifthwise.exchange.midi.limits import LARGEST_FILE, MOST_EVENTS, MOST_TRACKS
from tests.exchange.midi.files import filed, line, meta, notes, track

SOUND = filed(
    track(
        meta(0, "set_tempo", tempo=500000), meta(0, "time_signature", numerator=4, denominator=4),
        meta(0, "key_signature", key="D"), meta(0, "marker", text="Verse"), name="A Song",
    ),
    track(
        *line(62, 64, 66, 67, 69, 71), meta(0, "lyrics", text="la"), meta(0, "text", text="D"), name="Voice",
    ),
    track(*notes((0, 4, 50), (0, 4, 57), (0, 4, 62), (4, 2, 55), (4, 2, 59)), name="Piano"),
)  # fmt: skip


def headed(form=1, tracks=1, division=480, size=6):
    """The header of a file."""
    return b"MThd" + struct.pack(">LHHH", size, form, tracks, division)


def chunk(events, size=None):
    """A track of these bytes."""
    return b"MTrk" + struct.pack(">L", len(events) if size is None else size) + events


NOTE = bytes([0, 0x90, 60, 64, 96, 0x80, 60, 0])


@pytest.mark.parametrize(
    ("data", "fault", "what"),
    [
        (b"", UnreadableFile, "the file is empty"),
        (b"PK\x03\x04", UnreadableFile, "the file is no MIDI file but a packed file"),
        (b"<score/>", UnreadableFile, "the file is no MIDI file but an XML file"),
        (b"MThd\0\0", UnreadableFile, "the file breaks off in its header"),
        (headed(form=7), UnreadableFile, "the file's header is broken"),
        (headed(form=2), UnreadableFile, "the file holds patterns, not one song"),
        (headed(division=0xE728), UnreadableFile, "counts time in film frames"),
        (headed(division=0), UnreadableFile, "the file has no ticks a quarter"),
        (headed(), EmptyScore, "the file has no tracks"),
        (headed() + chunk(b""), EmptyScore, "the file has no notes"),
        (headed() + chunk(NOTE, 99), UnreadableFile, "the file breaks off: the track should have 99 bytes"),
        (headed() + chunk(NOTE[:6]), UnreadableFile, "the track ends within an event"),
        (headed() + chunk(b"\0\x3c\x40"), UnreadableFile, "an event has no status"),
        (headed() + chunk(b"\0\xf4\0"), UnreadableFile, "there is no event here"),
        (headed() + chunk(b"\0\x90\xff\x40"), UnreadableFile, "an event has a value above 127"),
        (headed() + chunk(b"\xff" * 9), UnreadableFile, "a time or a length has more than four bytes"),
        (headed() + chunk(b"\0\xff\x51\x01\x07"), UnreadableFile, "the meta event 51 has 1 bytes"),
        (headed() + chunk(b"\0\xff\x59\x02\x09\0"), UnreadableFile, "the key signature cannot be"),
    ],
)
def test_what_is_no_song_is_refused(data, fault, what):
    """Each fault names the file, what is wrong, and how to get one that can be read."""
    with pytest.raises(fault, match=what) as caught:
        read_midi(data, "song.mid")
    assert caught.value.where.startswith("song.mid")
    assert caught.value.fix


def test_a_fault_has_its_track_and_byte():
    """So that a broken file can be looked into."""
    with pytest.raises(UnreadableFile, match=r"song\.mid, track 2, byte 10: "):
        read_midi(headed(tracks=2) + chunk(NOTE) + chunk(NOTE + b"\0\xf4"), "song.mid")


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"MThd" + bytes(100_000_000), "the file has 100.0 MB; 1.5 MB are read"),
        (SOUND + bytes(LARGEST_FILE), "MB are read"),
        (headed() + chunk(NOTE[:4] + bytes([1, 60, 0]) * MOST_EVENTS), "more than 250,000 events"),
        (headed() + chunk(b"") * (MOST_TRACKS + 1), "257 tracks; 256 are read"),
        (headed(division=1) + chunk(b"\xff\xff\xff\x7f\x90\x3c\x40\x01\x80\x3c\x40"), "more than 2000 bars"),
        (headed(division=1) + chunk((b"\x87\xff\xff\x7f" + NOTE[1:4]) * 2 + b"\0\x80\x3c\0"), "2000 bars"),
    ],
)  # fmt: skip
def test_what_is_too_large_is_refused_soon(data, what):
    """Before it is made anything of: within a second and with little memory."""
    tracemalloc.start()
    start = time.process_time()
    with pytest.raises(TooLarge, match=what):
        read_midi(data, "song.mid")
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert time.process_time() - start < 5
    assert peak < 20_000_000


def test_the_most_that_is_read_takes_bounded_time_and_memory():
    """As many notes as are let through, all at once and crowded, are a song within a minute."""
    rng = random.Random(7)
    drones = [notes(*[(midi / 999, 7900, midi) for midi in range(128)], channel=at % 9) for at in range(200)]
    rows = [
        (rng.randrange(4000) / 8, rng.randrange(1, 8) / 16, rng.randrange(20, 110)) for _ in range(60_000)
    ]
    data = filed(track(*notes(*rows)), track(*notes(*rows[:30_000], channel=1)))
    for many, parts in ((data, 2), (filed(*[track(*drone) for drone in drones]), 200)):
        start = time.process_time()
        assert len(read_midi(many, "song.mid").parts) == parts
        assert time.process_time() - start < 30


@pytest.mark.parametrize(
    "head",
    [
        track(meta(0, "set_tempo", tempo=0)),
        track(meta(0, "set_tempo", tempo=0xFFFFFF)),
        track(meta(0, "time_signature", numerator=0, denominator=1)),
        track(meta(0, "time_signature", numerator=255, denominator=2**30)),
        track(meta(0, "time_signature", numerator=5, denominator=32)),
        track(*[meta(at / 7, "time_signature", numerator=3, denominator=8) for at in range(20)]),
        track(meta(0, "marker", text='"@x3 <!-- | x2'), meta(0, "lyrics", text="|-|")),
        track(meta(1000, "marker", text="far out"), meta(900, "key_signature", key="Gb")),
        track(name='# [key] "x"'),
    ],
)
def test_strange_heads_are_charts_all_the_same(head):
    """No tempo, no metre and no words that a file may have break a song."""
    found = read_midi(filed(head, track(*line(62, 64, 66, 67, 69, 71))), "song.mid")
    check(found)


@pytest.mark.parametrize("kind", ["marker", "cue_marker", "lyrics", "text"])
def test_many_texts_take_bounded_time(kind):
    """A hundred thousand texts within two bars, beside a thousand parts, are read soon."""
    texts = [(at % 4000, MetaMessage(kind, text=f"{at:x} ")) for at in range(100_000)]
    parts = [
        track(*[event for channel in range(16) for event in line(60, 62, channel=channel)]) for _ in range(60)
    ]
    start = time.process_time()
    check(read_midi(filed(track(*texts), *parts), "song.mid"))
    assert time.process_time() - start < 20


def check(found):
    """What was read makes a chart that can be written and read again."""
    chart = chart_of_sheet(found.sheet).chart
    assert parse(write_chart(chart)) == chart


@settings(deadline=None, max_examples=150)
@given(st.data())
def test_cut_and_changed_files_are_read_or_refused(data):
    """Whatever a byte is made of, there is a song or a fault of ours."""
    found = bytearray(SOUND[: data.draw(st.integers(0, len(SOUND)))] if data.draw(st.booleans()) else SOUND)
    for at, value in data.draw(
        st.lists(st.tuples(st.integers(0, len(SOUND)), st.integers(0, 255)), max_size=6)
    ):
        if at < len(found):
            found[at] = value
    try:
        read = read_midi(bytes(found), "song.mid")
    except ExchangeError:
        return
    check(read)


BYTE = st.integers(0, 127)
TEXTS = ["text", "marker", "lyrics", "cue_marker", "copyright"]
LATIN = st.text(st.characters(max_codepoint=255), max_size=8)
MESSAGES = st.one_of(
    st.builds(
        Message, st.sampled_from(["note_on", "note_off"]), channel=st.sampled_from([0, 1, 9]),
        note=BYTE, velocity=BYTE,
    ),
    st.builds(MetaMessage, st.sampled_from(TEXTS), text=LATIN),
    st.builds(MetaMessage, st.just("set_tempo"), tempo=st.integers(0, 0xFFFFFF)),
    st.builds(
        MetaMessage, st.just("time_signature"), numerator=st.integers(0, 40),
        denominator=st.sampled_from([1, 2, 4, 8, 16, 32, 64]),
    ),
    st.builds(MetaMessage, st.just("key_signature"), key=st.sampled_from(["C", "F#m", "Abm", "Cb", "C#"])),
    st.builds(Message, st.just("pitchwheel"), pitch=st.integers(-99, 99)),
)  # fmt: skip


@settings(deadline=None, max_examples=150)
@given(
    st.lists(st.lists(st.tuples(st.integers(0, 3000), MESSAGES), max_size=25), max_size=3),
    st.sampled_from([1, 24, 96, 480]),
)
def test_files_of_any_events_are_read_or_refused(tracks, ppq):
    """Events in any order at any time make a song or a fault of ours."""
    try:
        found = read_midi(filed(*[track(*events) for events in tracks], ppq=ppq), "song.mid")
    except ExchangeError:
        return
    check(found)
