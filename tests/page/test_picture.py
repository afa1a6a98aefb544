"""What the pictures of a voice must say and show."""

import io
import xml.etree.ElementTree as ET
from fractions import Fraction

import pypdf
import pytest

from fifthwise.chart import parse, unfold
from fifthwise.page.picture import profile_words, singer_picture
from fifthwise.page.picture_keys import keys_picture
from fifthwise.page.picture_record import voice_record
from fifthwise.page.picture_small import small_picture
from fifthwise.page.typst_book import book_pages
from fifthwise.voice import rank_keys, read_singer, sung_profile, sung_tune

SVG = "{http://www.w3.org/2000/svg}"


def song():
    """A song of four bars whose tune runs from the low 5 to the high 1."""
    text = """---
title: Rope and Lamp
key: Eb
octave: 4
---
# verse
1 | 4 | 5 | 1
tune: 5, 1 2 3 | 5 - 6 (5 3) | 1' - - 0 | 1 - - -
"""
    return parse(text)


def profiles(usable="F3-D5", comfort="A3-Bb4", turns="Bb4", name="Maren"):
    """The song in all keys for one singer, the best first."""
    chart = song()
    tune, singer = (
        sung_tune(chart, unfold(chart)),
        read_singer(name, usable=usable, comfort=comfort, turns=turns),
    )
    return [sung_profile(tune, singer, fit) for fit in rank_keys(tune, singer)]


def bars(svg):
    """The bars of a picture: pitch, beats and width."""
    return [
        (rect.get("data-pitch"), Fraction(rect.get("data-beats")), float(rect.get("width")))
        for rect in ET.fromstring(svg).iter(f"{SVG}rect")
        if rect.get("data-pitch")
    ]


def text_of(svg):
    """All that is written in a picture."""
    return " ".join(node.text or "" for node in ET.fromstring(svg).iter(f"{SVG}text"))


@pytest.mark.parametrize("rank", [0, 5, 11])
def test_every_sung_pitch_has_a_bar_as_long_as_it_is_sung(rank):
    """Pitches and beats are the profile's, and the widths are in proportion to the beats."""
    profile = profiles()[rank]
    drawn = bars(singer_picture(profile, "Maren"))
    assert [(pitch, beats) for pitch, beats, _ in drawn] == [(str(t.pitch), t.beats) for t in profile.pitches]
    longest = max(width for *_, width in drawn)
    most = max(beats for _, beats, _ in drawn)
    for _, beats, width in drawn:
        assert width == pytest.approx(longest * float(beats / most), abs=0.02)


def test_the_picture_says_why_and_names_notes_and_degrees():
    """The title, each pitch with its number and each of the singer's own notes are written."""
    profile = profiles()[0]
    text = text_of(singer_picture(profile, "Maren"))
    assert "Why " in text
    assert "for Maren" in text
    assert "highest D5" in text
    assert "lowest F3" in text
    assert "easy up to B♭4, change-over B♭4" in text
    for time in profile.pitches:
        assert str(time.degrees[0]) in text


def test_what_does_not_fit_is_said_in_words():
    """Outside comfort and out of reach are told by words beside the bar, not by the hatching alone."""
    last = profiles()[-1]
    kinds = {time.ease for time in last.pitches} - {"easy"}
    text = text_of(singer_picture(last, "Maren"))
    said = {
        "too low": "below reach",
        "low": "below comfort",
        "high": "above comfort",
        "too high": "above reach",
    }
    assert kinds
    for kind in kinds:
        assert said[kind] in text


def test_a_name_with_markup_stays_text():
    """A singer's name is escaped in the title, in the words and in the picture."""
    svg = singer_picture(profiles(name="<script>&")[0], "<script>&")
    assert ET.fromstring(svg).find(f"{SVG}title").text.endswith("for <script>&")
    assert "<script" not in svg


def test_the_account_in_words_holds_every_pitch():
    """Who hears the page is told each pitch, its number and its time."""
    profile = profiles()[0]
    account = profile_words(profile, "Maren")
    for time in profile.pitches:
        assert str(time.pitch).replace("b", "♭") in account
    assert "C4, the 1, 5 beats" in account


def test_a_song_with_its_ends_alone_is_drawn_without_lengths():
    """Where only lowest and highest are known, both pitches stand there and no beats are claimed."""
    chart = parse("---\ntitle: T\nkey: D\nlowest: 5,\nhighest: 3'\n---\n1 | 4 | 5 | 1\n")
    singer = read_singer("Tobias", usable="A2-G4", comfort="C3-E4")
    tune = sung_tune(chart, unfold(chart))
    profile = sung_profile(tune, singer, rank_keys(tune, singer)[0])
    svg = singer_picture(profile, "Tobias")
    assert len(bars(svg)) == 2
    assert "beat" not in text_of(svg)


def test_the_keys_picture_has_a_column_for_every_key():
    """Twelve keys are named, the best three ranked, and each pitch of each key drawn."""
    told = profiles()
    svg = keys_picture(told, "Maren")
    text = text_of(svg)
    assert len(bars(svg)) == sum(len(profile.pitches) for profile in told)
    assert all(word in text for word in ("best", "2nd", "3rd"))
    for profile in told:
        assert profile.fit.key.short.replace("b", "♭") in text


def test_a_singers_page_prints_with_its_words():
    """Both pictures stand on one page of an accessible file, each with its account in words."""
    told = profiles()
    record = voice_record("Rope and Lamp", "Maren", told[0], told)
    assert record["words"] == profile_words(told[0], "Maren")
    assert record["others_words"].startswith("The best key first")
    made = book_pages([record], paper="a4", title="Voices")
    reader = pypdf.PdfReader(io.BytesIO(made))
    assert len(reader.pages) == 1
    assert "Rope and Lamp" in reader.pages[0].extract_text()


def test_notes_that_sound_alike_do_not_hide_each_other():
    """A flat 6 and a sharp 5 of one tune share a row, and neither bar covers the other."""
    chart = parse("---\ntitle: T\nkey: C\noctave: 4\n---\n1 | 4\ntune: b6 - #5 - | 1 - 3 -\n")
    singer = read_singer("Maren", usable="F3-D5", comfort="A3-Bb4")
    tune = sung_tune(chart, unfold(chart))
    fit = next(fit for fit in rank_keys(tune, singer) if fit.key == chart.key)
    svg = singer_picture(sung_profile(tune, singer, fit), "Maren")
    rows = {
        rect.get("data-pitch"): (float(rect.get("y")), float(rect.get("height")))
        for rect in ET.fromstring(svg).iter(f"{SVG}rect")
        if rect.get("data-pitch") in ("Ab4", "G#4")
    }
    (low, high), (other, tall) = sorted(rows.values())
    assert low + high <= other
    assert tall > 0


def test_a_called_key_is_not_reasoned_for():
    """Where another key than the best was called, the picture says so and names the best keys."""
    told = profiles()
    ranking = [profile.fit for profile in told]
    called = singer_picture(told[5], "Maren", ranking=ranking)
    names = [fit.key.short.replace("b", "♭").replace("#", "♯") for fit in ranking]
    assert f"{names[5]} for Maren, as called" in text_of(called)
    assert f"Best would be {names[0]}, {names[1]} or {names[2]}." in text_of(called)
    assert "Why " not in text_of(called)
    assert "as called" not in singer_picture(told[0], "Maren", ranking=ranking)


def test_a_picture_has_margins_and_paper_of_its_own():
    """Nothing is written at the edge, and light and dark viewers both see ink on paper."""
    svg = singer_picture(profiles()[0], "Maren")
    root = ET.fromstring(svg)
    left, top, width, height = map(float, root.get("viewBox").split())
    assert (left, top) == (-12, -12)
    paper = next(node for node in root.iter(f"{SVG}rect") if node.get("class") == "paper")
    assert [float(paper.get(name)) for name in ("x", "y", "width", "height")] == [left, top, width, height]
    assert "prefers-color-scheme: dark" in svg
    assert "http" not in svg.replace("http://www.w3.org/2000/svg", "")


@pytest.mark.parametrize("rank", [0, 5, 11])
def test_the_small_picture_shows_every_pitch_as_tall_as_it_is_sung(rank):
    """Pitches and beats are the profile's, heights are in proportion, and all stands inside the picture."""
    profile = profiles()[rank]
    svg = ET.fromstring(str(small_picture(profile, "Maren")))
    found = [rect for rect in svg.iter("rect") if rect.get("data-pitch")]
    assert [rect.get("data-pitch") for rect in found] == [str(time.pitch) for time in profile.pitches]
    longest = max(time.beats for time in profile.pitches)
    tallest = max(float(rect.get("height")) for rect in found)
    for rect, time in zip(found, profile.pitches, strict=True):
        assert float(rect.get("height")) == pytest.approx(tallest * float(time.beats / longest), abs=0.02)
    places = [float(node.get("x")) for node in svg.iter() if node.get("x")]
    assert min(places) >= 0
    assert max(places) <= 320


def test_the_small_picture_has_no_style_and_no_markup_of_a_name():
    """It may stand in a page that forbids styles, whatever the singer is called."""
    svg = str(small_picture(profiles(name='<b>&"x')[0], '<b>&"x'))
    assert "style" not in svg
    assert "<b>" not in svg
