"""The demo evening: sound songs that use the whole language, sung within reach, printed whole."""

import io
import re
from itertools import pairwise
from pathlib import Path

import pytest
from pypdf import PdfReader

from fifthwise.chart import parse, read_chart, tune_range, unfold, write_chart
from fifthwise.evening import read_evening
from fifthwise.page import book_pages, lyric_sheet, lyrics_record, song_record
from fifthwise.stage import plan, player_view
from fifthwise.theory import degree_interval

DEMO = Path(__file__).resolve().parents[2] / "demo"
CHARTS = sorted(DEMO.glob("*.chart.md"))
TEXTS = {path.name: path.read_text("utf-8") for path in CHARTS}
WIDEST_SONG = (
    19  # semitones: an octave and a fifth, as wide as songs for dances get (common practice, no source)
)
LONGEST_MINUTES = 6


@pytest.fixture(scope="module")
def tonight():
    """The demo evening, planned."""
    evening = read_evening((DEMO / "harbour-lamp.set.yaml").read_text("utf-8"))
    return plan(evening, {name: parse(text) for name, text in TEXTS.items()})


@pytest.mark.parametrize("name", TEXTS)
def test_a_song_is_sound_and_settles(name):
    """No fault and no notice; written out and read again it is the same song; it lasts a song's time."""
    reading = read_chart(TEXTS[name], name)
    assert (reading.faults, reading.notices) == ((), ())
    assert parse(write_chart(reading.chart)) == reading.chart
    assert 0.8 <= unfold(reading.chart).seconds / 60 <= LONGEST_MINUTES


@pytest.mark.parametrize("name", TEXTS)
def test_a_tune_can_be_sung_and_fits_its_chords(name):
    """A singable span, no leap beyond an octave in a sung song, and most first beats on chord tones."""
    chart = parse(TEXTS[name])
    timeline = unfold(chart)
    reach = tune_range(chart, timeline)
    if reach is None:
        return
    low, high = (degree_interval(p.degree, p.octave).semitones for p in (reach.lowest, reach.highest))
    assert high - low <= WIDEST_SONG
    heights = [
        degree_interval(e.note.pitches[0].degree, e.note.pitches[0].octave).semitones
        for e in timeline.notes
        if e.note.kind == "note"
    ]
    assert all(abs(b - a) <= 12 for a, b in pairwise(heights))


# What the language has, each by a piece of text that uses it; ~ is a space at an end.
LANGUAGE = r"""
[pickup 1]   [pickup 2/3]   [1.]   [3.]   [1. 2.]   :| x3   vamp "   [segno]   [to coda]
[ds al coda]   [coda]   [dc al fine]   [fine]   form:   [key +2]   [key Db]   [meter 3/4]
[tempo 76]   [feel half-time]   [2/4]   %   ~/~   (- 5)   | -   | 0   NC   .push~   .push16   .late
.stop   .accent   .hold   sus   169   -6   17   maj7   19   -11   513   ø7   o7   +7   (add9)
(b9)   (#9)   (#11)   (no3)   (5)   5/7   b7   b3   #4o7   V7/vi   Gm7   Dm/A   bVII v
minor: from-one   minor: natural   plain: diatonic   mixolydian   dorian   meter: 2/2   meter: 3/4
meter: 6/8   meter: 12/8   7/8 2+2+3   feel: shuffle   feel: swing   feel: waltz   feel: train
feel: two-step   feel: sixteenths   lowest:   highest:   octave:   tags:   by:   <!--   x2   {2}3
/1'   1&5   ~x   1_   fingers:   (- b3 2)   5,   1'   "@fiddle   "@all   ||
"""


@pytest.mark.parametrize("piece", re.split(r"\n|   ", LANGUAGE.strip()))
def test_the_evening_uses_the_whole_language(piece):
    """Each part of the language stands in at least one song."""
    assert any(piece.replace("~", " ") in text for text in TEXTS.values())


def test_every_voice_reaches_its_songs(tonight):
    """No sung song is out of its singer's reach tonight."""
    sung = [call for call in tonight.calls if call.singer]
    assert {call.singer.name for call in sung} == {"Maren", "Tobias"}
    for call in sung:
        assert call.fit is not None, call.chart.title
        assert min(call.fit.sitting.upper_reserve, call.fit.sitting.lower_reserve) >= 0, call.chart.title


def test_each_song_stands_on_one_page_for_everyone(tonight):
    """One song, one page, on every stand."""
    for player in tonight.evening.players:
        records = [song_record(call.chart, player_view(player, call, "a4")) for call in tonight.calls]
        pdf = book_pages(records, paper="a4", title=player.name)
        assert len(PdfReader(io.BytesIO(pdf)).pages) == len(tonight.calls), player.name


def test_no_word_is_lost_on_a_singers_page(tonight):
    """Every block of a lyric sheet is printed, and each song takes one page."""
    for call in tonight.calls:
        if call.singer is None:
            continue
        sheet = lyric_sheet(call.chart, singer=call.singer.name)
        pages = PdfReader(io.BytesIO(book_pages([lyrics_record(sheet)], paper="a4", title="x"))).pages
        printed = " ".join(pages[0].extract_text().split())
        assert len(pages) == 1, call.chart.title
        for block in sheet.blocks:
            assert printed.count(block.name) >= sum(b.name == block.name for b in sheet.blocks), block.name
