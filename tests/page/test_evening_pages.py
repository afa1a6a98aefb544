"""What an evening's title page and key sheet must say."""

import io
import json
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
import typst

from fifthwise.chart import parse, rekey, unfold
from fifthwise.page.evening_pages import RunningSong, key_read, keysheet_record, printed_date, title_record
from fifthwise.page.layout_view import PagePart, PageView
from fifthwise.theory import Interval
from fifthwise.voice import rank_keys, read_singer, sung_tune

PAGE = Path(__file__).parents[2] / "src/fifthwise/page"
SINGERS = (
    read_singer("Maren", usable="F3-D5", comfort="A3-Bb4"),
    read_singer("Tobias", usable="A2-G4", comfort="C3-E4"),
)
SONG = """---
title: Rope and Lamp
key: Bb
tempo: 92
meter: 6/8
feel: slow
---
1 | 4 | 5 | 1
tune: 5, 1 | 2 3 | 5 6 | 1' -
"""
HARNESS = """#import "title.typ": title-page
#import "keysheet.typ": keysheet-page
#set document(title: "Evening")
#set page(paper: "a4", margin: (x: 16mm, top: 12mm, bottom: 14mm))
#set text(font: ("Atkinson Hyperlegible Next", "fifthwise Signs"), lang: "en")
#title-page(json(bytes(sys.inputs.title)))
#pagebreak()
#keysheet-page(json(bytes(sys.inputs.keys)))
#pagebreak()
#metadata(none) <song-2>
Second song
"""


def songs():
    """Three songs: Maren's, Tobias's without a pause before the last, and one that nobody sings."""
    chart = parse(SONG)
    tune = sung_tune(chart, unfold(chart))
    fits = {singer.name: rank_keys(tune, singer) for singer in SINGERS}
    keys = (fits["Maren"][0].key, fits["Tobias"][1].key)
    return [
        RunningSong(1, rekey(chart, keys[0].tonic), "Maren", "Ines", False, fits, "song-1"),
        RunningSong(2, rekey(chart, keys[1].tonic), "Tobias", "", True, fits, "song-2"),
        RunningSong(3, parse(SONG.split("tune:")[0].replace("tempo: 92\n", "")), anchor="song-3"),
    ]


def records(running=None):
    """Both pages of an evening."""
    running = running or songs()
    names = [singer.name for singer in SINGERS]
    return title_record("The Harbour Lamp", "2026-12-05", running), keysheet_record(
        "The Harbour Lamp", "2026-12-05", running, names
    )


def pdf(title, keys):
    """Print both pages, and a song's page after them, with our fonts alone."""
    ours = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[PAGE / "fonts"])
    files = {"main.typ": HARNESS.encode()}
    files |= {name: (PAGE / name).read_bytes() for name in ("title.typ", "keysheet.typ", "fitted.typ")}
    inputs = {"title": json.dumps(title), "keys": json.dumps(keys)}
    made = typst.compile(
        files, format="pdf", font_paths=ours, sys_inputs=inputs, pdf_standards=["ua-1"], timestamp=0
    )
    return pypdf.PdfReader(io.BytesIO(made))


def test_the_running_order_holds_what_the_band_asks_for():
    """Number, title, singer, key, tempo, metre, feel, who counts in and the segue of each song."""
    title, _ = records()
    assert title["date"] == "Saturday 5 December 2026"
    assert title["singers"] == ["Maren", "Tobias"]
    first, second, third = title["songs"]
    assert (first["number"], first["title"], first["singer"]) == (1, "Rope and Lamp", "Maren")
    assert (first["tempo"], first["about"], first["metre"], first["feel"]) == ("92", False, "6/8", "slow")
    assert (first["counts_in"], first["segue"], second["segue"]) == ("Ines", False, True)
    assert (third["tempo"], third["about"], third["key"]) == ("100", True, "B♭")


def test_the_key_sheet_ranks_every_singers_keys():
    """Three keys a singer, the best first; tonight's key of its singer is found again by its sound."""
    _, keys = records()
    first, second, third = keys["songs"]
    fits = songs()[0].fits
    for place, singer in enumerate(SINGERS):
        shown = [cell["key"] for cell in first["fits"][place]]
        assert shown == [fit.key.short.replace("b", "♭").replace("#", "♯") for fit in fits[singer.name][:3]]
    assert second["tonight"][1]["key"] == second["key"]
    assert third["fits"] == [[], []]
    assert third["tonight"] == [None, None]


def test_a_key_out_of_reach_says_which_end():
    """A tune of two octaves is too high and too low at once for a voice of one."""
    chart = parse(SONG.replace("5, 1", "1, 1"))
    narrow = read_singer("Maren", usable="C4-G4", comfort="C4-G4")
    fits = {"Maren": rank_keys(sung_tune(chart, unfold(chart)), narrow)}
    sheet = keysheet_record("E", "", [RunningSong(1, chart, fits=fits)], ["Maren"])
    faults = {cell["fault"] for cell in sheet["songs"][0]["fits"][0]}
    assert faults <= {"high", "low", "high and low"}
    assert faults


@pytest.mark.parametrize(
    ("text", "printed"),
    [("2026-12-05", "Saturday 5 December 2026"), ("first Friday", "first Friday"), ("", "")],
)
def test_a_date_is_written_out_and_words_are_left_alone(text, printed):
    """Only an ISO date is rewritten."""
    assert printed_date(text) == printed


def test_titles_lead_to_the_pages_that_the_book_holds():
    """The second song has a page and is linked from both pages; the others print without a link."""
    reader = pdf(*records())
    links = [
        [a for a in page.get("/Annots", []) if a.get_object()["/Subtype"] == "/Link"] for page in reader.pages
    ]
    assert [len(found) for found in links] == [1, 1, 0]
    assert "Rope and Lamp" in reader.pages[0].extract_text()


def test_a_title_cannot_run_commands():
    """Markup of the printer's language in a title, a name or a feel is printed as it stands."""
    wild = '#panic("no") *x* $y$ <b>'
    running = [replace(songs()[0], singer="#name", chart=replace(songs()[0].chart, title=wild, feel="_#f_"))]
    text = pdf(*records(running)).pages[0].extract_text()
    assert "panic" in text
    assert "#name" in text


def test_a_long_evening_goes_on_to_the_next_page():
    """Forty songs are all printed, none of them lost at a page's end."""
    running = [replace(songs()[0], number=number, anchor="") for number in range(1, 41)]
    reader = pdf(*records(running))
    text = "\n".join(page.extract_text() for page in reader.pages)
    assert text.count("Rope and Lamp") == 80


LONG = "The Ballad of the Night the Harbour Lamp Went Out and Nobody Could Find the Way Home over the Bar"
CHOIR = ("Maren", "Tobias", "Wilhelmina", "Ida", "Joss", "Perpetua")


def many(singers, count, **more):
    """Songs for several singers, each tried against every voice."""
    first = songs()[0]
    fits = {name: first.fits["Maren"] for name in CHOIR[:singers]}
    names = [CHOIR[number % singers] for number in range(count)]
    return [
        replace(first, number=number, singer=name, fits=fits, anchor="", **more)
        for number, name in enumerate(names, start=1)
    ]


@pytest.mark.parametrize("singers", range(1, 7))
def test_every_singer_has_room_on_the_key_sheet(singers):
    """Every name stands over its column once on a short evening, and no song is lost, however many sing."""
    running = many(singers, 4)
    text = "\n".join(
        page.extract_text()
        for page in pdf(
            title_record("E", "", running), keysheet_record("E", "", running, CHOIR[:singers])
        ).pages[1:]
    )
    assert all(text.count(name) == 1 for name in CHOIR[:singers])
    assert text.count("Rope and Lamp") == (4 if singers < 6 else 8)


def test_a_long_title_stays_in_its_cell():
    """It is cut with three dots where two lines do not hold it; the key sheet stays one page."""
    chart = replace(songs()[0].chart, title=LONG)
    running = many(4, 6, chart=chart)
    pages = pdf(title_record("E", "", running), keysheet_record("E", "", running, CHOIR[:4])).pages
    assert len(pages) == 3
    assert "…" in pages[1].extract_text()


def test_the_key_sheet_tells_nobody_sings_from_no_tune():
    """A song without a singer is no song without a tune."""
    untuned = replace(songs()[2], number=4, singer="Tobias", anchor="")
    text = pdf(*records([*songs(), untuned])).pages[1].extract_text()
    assert text.count("nobody sings") == 1
    assert text.count("no tune written") == 1


def test_a_transposing_players_cover_names_the_key_that_is_read():
    """A trumpet in B flat reads C where B flat sounds, a capo on 3 reads G, the fiddle what sounds."""
    chart = songs()[2].chart
    trumpet, capo = PagePart("Trumpet in B♭", Interval(2, 1)), PagePart("Guitar", capo=3)
    told = [key_read(chart, PageView(part=part)) for part in (trumpet, capo, PagePart("Fiddle"))]
    assert told == ["C", "G, capo 3", ""]
    text = pdf(*records([replace(songs()[2], reads=told[0])])).pages[0].extract_text()
    assert "reads C" in text


def test_the_running_order_flows_with_its_head():
    """Forty songs with long titles, feels and names keep one row each, under the head on every page."""
    chart = replace(songs()[0].chart, title=LONG, feel="half-time shuffle with a heavy back beat")
    running = many(3, 40, chart=chart, counts_in="Bartholomew the Drummer")
    pages = pdf(title_record("E", "", running), keysheet_record("E", "", [], [])).pages
    heads = [page.extract_text().count("Tempo, metre, feel") for page in pages[:-2]]
    assert len(heads) > 1
    assert set(heads) == {1}
    assert sum(page.extract_text().count("The Ballad") for page in pages) == 40
