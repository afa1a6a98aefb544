import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.chart import parse
from fifthwise.exchange.errors import TooLarge, UnreadableFile
from fifthwise.exchange.song_json import misfit, read_song_json, song_record, song_schema, write_song_json
from tests.chart.strategies import charts

DEMO = Path(__file__).parents[3] / "demo"
SONGS = sorted(DEMO.glob("*.chart.md"))
BUOY = parse((DEMO / "black-buoy.chart.md").read_text("utf-8"))


@settings(deadline=None, max_examples=60)
@given(charts())
def test_a_chart_comes_back_from_json(chart):
    """Every chart that can be written is the same chart again, and fits the schema."""
    text = write_song_json(chart).decode()
    assert misfit(json.loads(text)) is None
    assert read_song_json(text, "song.json") == chart


@pytest.mark.parametrize("file", SONGS, ids=lambda file: file.name)
def test_a_song_of_the_demo_comes_back_from_json(file):
    """The same chart."""
    chart = parse(file.read_text("utf-8"))
    assert read_song_json(write_song_json(chart).decode(), "song.json") == chart


def changed(path, value):
    """The record of a song with one value changed, or taken away."""
    record = song_record(BUOY)
    *way, last = path
    place = record
    for step in way:
        place = place[step]
    if value is None:
        del place[last]
    else:
        place[last] = value
    return json.dumps(record)


BAR = ("sections", 0, "lines", 0, "bars", 0)


@pytest.mark.parametrize(
    ("path", "value", "told"),
    [
        (("format",), "song", "no song of ours"),
        (("version",), 2, "version 2 of the format; 1 is read. Bring it in with a newer fifthwise"),
        (("title",), None, "'title' is missing"),
        (("title",), "", "has less than 1"),
        (("title",), "two\nlines", "is not written as"),
        (("key",), "H", r"song.json, /key: 'H' is no key"),
        (("extra",), 1, '"extra" is not known'),
        (("octave",), True, "true is not a whole number"),
        (("octave",), 9, "more than 8"),
        (("minor",), "up", "none of from-six, from-one, natural"),
        ((*BAR, "slots", 0, "length"), "1/0", "is not written as"),
        ((*BAR, "slots", 0, "length"), "3", r"/sections/0/lines/0/bars/0: the chords last 3 quarters"),
        ((*BAR, "slots", 0, "number"), "9x", r"bars/0/slots/0/number: '9x' is no chord"),
        ((*BAR, "slots", 0, "number"), None, "a chord has a number"),
        ((*BAR, "slots"), [], "has less than 1 items"),
        ((*BAR, "metre"), "4/3", "/metre"),
        ((*BAR, "repeat_start"), False, "is not true"),
        ((*BAR, "marks"), [{"feel": "swing", "tempo": "80"}], "it needs one of key, metre, tempo, feel"),
        ((*BAR, "coda"), True, r"at fault: '\[coda\]' stands beside a form"),
        (("form", 0, "section"), 77, "there is no such section"),
        (("form", 0), {"section": 0, "key": {"semitones": 1}}, "it needs one of section, key"),
    ],
)
def test_json_that_says_no_song_is_told(path, value, told):
    """What is wrong and where in the record."""
    with pytest.raises(UnreadableFile, match=told):
        read_song_json(changed(path, value), "song.json")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("{", "line 1, column 2: this is no JSON"),
        ("[" * 100_000, "nested too deeply"),
        ("[]", "no song of ours"),
        ('{"format": "fifthwise song", "version": ' + "9" * 5000 + "}", "too long a number"),
        ('{"format": "fifthwise song", "version": NaN}', "is missing"),
        ('{"format": "fifthwise song", "version": 1e999}', "is missing"),
    ],
)
def test_what_is_no_json_of_ours_is_told(text, told):
    """Where it breaks, or what it is not."""
    with pytest.raises(UnreadableFile, match=told):
        read_song_json(text, "song.json")


def test_json_that_is_too_long_is_refused_unread():
    """The limit is said."""
    with pytest.raises(TooLarge, match="8 MB of JSON are read"):
        read_song_json(" " * 8_000_001, "song.json")


def test_a_whole_number_may_have_a_point():
    """JSON Schema 2020-12, 6.1.1: 1.0 is a whole number."""
    text = write_song_json(BUOY).decode().replace('"version": 1', '"version": 1.0')
    assert read_song_json(text, "song.json") == BUOY


@settings(deadline=None, max_examples=200)
@given(st.data())
def test_a_changed_record_is_read_or_refused(data):
    """Whatever stands in place of one value, the answer is a chart or a fault of ours."""
    record = json.loads(json.dumps(song_record(BUOY)))
    place, way = record, []
    while isinstance(place, dict | list) and place:
        steps = sorted(place) if isinstance(place, dict) else list(range(len(place)))
        way.append((place, data.draw(st.sampled_from(steps))))
        place = place[way[-1][1]]
        if data.draw(st.integers(0, 3)) == 0:
            break
    owner, step = way[-1]
    values = st.none() | st.booleans() | st.integers(-99, 99) | st.text(max_size=5)
    owner[step] = data.draw(values | st.sampled_from(["1/3", "17", "b7", "hold", "6/8", "[", "# x", {}, []]))
    try:
        chart = read_song_json(json.dumps(record), "song.json")
    except UnreadableFile:
        return
    assert read_song_json(write_song_json(chart).decode(), "song.json") == chart


def test_the_published_schema_names_every_word_that_is_checked():
    """Each word of it is one that the check knows, so that none is passed over in silence."""
    from fifthwise.exchange.song_json.schema import CHECKS, SAID

    def words(schema):
        for word, value in schema.items():
            yield word
            if word in ("properties", "$defs"):
                for each in value.values():
                    yield from words(each)
            elif word == "items":
                yield from words(value)
            elif word == "oneOf":
                for each in value:
                    yield from words(each)

    assert set(words(song_schema())) <= {*CHECKS, *SAID}
