"""The page *Songs*: one field that finds words or chords, filters, orders, pages."""

import re
from datetime import date, timedelta
from html import unescape
from urllib.parse import urlencode

import pytest
from starlette.testclient import TestClient

from fifthwise.book import add_singer, add_song, open_book, record_sung
from fifthwise.theory import read_key
from fifthwise.voice import read_singer
from fifthwise.web import make_app
from fifthwise.web.days import said_day
from fifthwise.web.songs_wish import read_find

FRAGMENT = {"HX-Request": "true"}
CHART = "---\ntitle: {}\nkey: {}\nmeter: 4/4\ntempo: {}\n---\n# verse\n{}\n"


def chart(title, key="C", tempo=100, bars="1 | 4 | 5 | 1"):
    """A short song."""
    return CHART.format(title, key, tempo, bars)


def words(html):
    """What is read, as one line."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def titles(html):
    """The songs of the list, in its order."""
    return [words(title) for title in re.findall(r'<a href="/songs/\d+"><bdi>(.*?)</bdi>', html)]


def ask(client, headers=None, **asked):
    """The page, or its fragment, for what is asked."""
    return client.get(f"/songs?{urlencode(asked)}", headers=headers or {})


@pytest.fixture
def alone(tmp_path):
    """An empty book, and a visitor to it."""
    with (
        open_book(tmp_path / "alone.sqlite") as opened,
        TestClient(make_app(opened), base_url="http://127.0.0.1:5151") as visitor,
    ):
        yield opened, visitor


def test_all_songs_stand_by_title(client):
    """Without a wish all are listed, and how many there are is said."""
    html = client.get("/songs").text
    assert titles(html) == sorted(titles(html), key=str.casefold)
    assert len(titles(html)) == 11
    assert "11 songs" in words(html)


@pytest.mark.parametrize(
    ("text", "way", "other"),
    [
        ("lamp", "words", ""),
        ("6- 4", "chords", ""),
        ("6", "chords", "6"),
        ("4 5", "chords", "4 5"),
        ("| 6- | 4 |", "chords", ""),
        ("vi IV", "chords", "vi IV"),
        ("I", "words", "I"),
        ("24", "words", "2 4"),
        ("99", "words", ""),
        ("7 plank bridge", "words", ""),
        ("6- b", "chords", ""),
        ("6- 9", "words", ""),
        ("", "words", ""),
    ],
)
def test_a_text_is_words_or_chords(text, way, other):
    """What reads as chords is chords; what may be both offers the other."""
    find = read_find(text)
    assert (find.way, find.other) == (way, other)


def test_chords_are_found_in_any_key_and_marked(alone):
    """The songs that have them are listed, and the span is marked in the opening."""
    book, client = alone
    add_song(book, chart("Opens", bars="1 | 6- | 4 | 5"))
    add_song(book, chart("Later", "F", bars="1 | 2 | 3 | 1 | 2 | 3 | 1 | 2 | 6- | 4"))
    add_song(book, chart("Never"))
    html = ask(client, find="6- 4").text
    assert titles(html) == ["Later", "Opens"]
    assert "2 songs of 3 , with 6– then 4 in any key" in words(html)
    marks = [words(mark).replace(" ", "") for mark in re.findall(r"<mark>(.*?)</mark>", html)]
    assert marks == ["6–4"]
    assert "later on" in words(html)


def test_a_mark_far_into_the_opening_is_in_sight(alone):
    """Where the span begins after the sixth chord, the window goes as far."""
    book, client = alone
    add_song(book, chart("Far", bars="1 | 2 | 3 | 4 | 5 | 1 | 6- | 4"))
    html = ask(client, find="6- 4").text
    assert words(re.search(r'class="chords">(.*?)</td>', html)[1]).replace(" ", "") == "…3451" + "6–4"


def test_words_are_found_and_said(client):
    """A part of a title finds it, whatever its case."""
    html = ask(client, find="LAMP").text
    assert "Last Boat Lamp" in titles(html)
    assert "with “LAMP” in title or words" in words(html)


def test_what_may_be_both_offers_the_other_way(alone):
    """Figures typed together are words; the line leads to the same as chords, and back."""
    book, client = alone
    add_song(book, chart("Route 24"))
    add_song(book, chart("Other", bars="2 | 4 | 1"))
    html = ask(client, find="24").text
    assert titles(html) == ["Route 24"]
    link = unescape(re.search(r'href="([^"]*)">Find the chords 2 4 instead', html)[1])
    html = client.get(link).text
    assert titles(html) == ["Other"]
    assert "Find 2 4 in titles and words instead" in words(html)


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({"key": "G"}, ["B"]),
        ({"low": "90", "high": "110"}, ["A", "C"]),
        ({"low": "130"}, ["B"]),
        ({"high": "99.5", "key": "C"}, ["A"]),
        ({"order": "tempo"}, ["A", "C", "B"]),
        ({"order": "saved"}, ["C", "B", "A"]),
        ({"order": "nonsense", "first": "-1"}, ["A", "B", "C"]),
    ],
)
def test_filters_and_orders_stand_in_the_address(alone, asked, found):
    """Each narrows the list or puts it in order."""
    book, client = alone
    for title, key, tempo in (("A", "C", 95), ("B", "G", 140), ("C", "C", 110)):
        add_song(book, chart(title, key, tempo))
    assert titles(ask(client, **asked).text) == found


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ({"find": "6- b"}, "'b' is no chord"),
        ({"find": " ".join("14" * 9)}, "it has 18 chords. Write at most 16"),
        ({"find": "l" * 501}, "it has 501 characters"),
        ({"low": "fast"}, "'fast' is no tempo"),
        ({"low": "120", "high": "90"}, "no tempo lies from 120 to 90"),
        ({"key": "H"}, "is no key"),
    ],
)
def test_what_cannot_be_looked_for_is_told_and_the_list_stays(client, asked, told):
    """A page lists everything under the fault; a script is told to keep what it has."""
    page = ask(client, **asked)
    assert page.status_code == 422
    assert told in words(page.text)
    assert len(titles(page.text)) == 11
    live = ask(client, FRAGMENT, **asked)
    assert live.status_code == 200
    assert live.headers["hx-reswap"] == "none"
    assert told in words(live.text)


def test_a_script_is_given_the_list_and_a_clean_address(client):
    """The fragment has no frame; what is empty does not come into the address."""
    answer = ask(client, FRAGMENT, find="lamp", key="", low="", order="title")
    assert "<html" not in answer.text
    assert answer.headers["hx-replace-url"] == "/songs?find=lamp"


def test_nothing_found_says_what_to_do(client):
    """The page says so and leads back."""
    html = ask(client, find="zzz").text
    assert "No song has that" in words(html)
    assert "No songs of 11" in words(html)
    assert re.search(r'href="/songs">Clear', html)


def test_pages_go_on_by_more(alone):
    """Each page has fifty; every song comes once."""
    book, client = alone
    for number in range(120):
        add_song(book, chart(f"Song {number:03}"))
    address, seen = "/songs", []
    while address:
        html = client.get(address).text
        seen += titles(html)
        more = re.search(r'id="more">.*?href="([^"]*)"', html)
        address = unescape(more[1]) if more else ""
    assert seen == [f"Song {number:03}" for number in range(120)]
    rows = client.get("/songs?first=50", headers=FRAGMENT)
    assert "hx-replace-url" not in rows.headers
    assert len(titles(rows.text)) == 50


def test_singers_have_a_column_with_the_key_that_they_sang_last(book, client):
    """Up to three stand beside each other, a fourth takes them all away; the day stays."""
    maren, _tobias = (
        add_singer(book, read_singer(name, usable="A3-D5", comfort="C4-A4")).id
        for name in ("Maren", "Tobias")
    )
    record_sung(book, maren, 1, read_key("Eb"), date.today() - timedelta(days=9))
    record_sung(book, maren, 1, read_key("Bb"), date.today() - timedelta(days=1))
    row = re.search(r'<tr>(?:(?!</tr>).)*href="/songs/1".*?</tr>', client.get("/songs").text, re.S)[0]
    assert words(row).endswith("B♭ – 132 4/4 yesterday")
    for name in ("Ada", "Bo"):
        add_singer(book, read_singer(name, usable="A3-D5", comfort="C4-A4"))
    html = client.get("/songs").text
    assert 'class="singer"' not in html


def test_a_book_without_singers_has_no_column_for_them(client):
    """Nobody can have sung."""
    html = client.get("/songs").text
    assert "Last sung" not in html
    assert "not yet" not in html


def test_an_empty_book_says_what_to_do(alone):
    """Its songs' page leads to a new song, to the import, to the singers, and to the start."""
    html = alone[1].get("/songs").text
    for address in ("/songs/new", "/songs/import", "/singers", "/"):
        assert f'href="{address}"' in html


def test_a_title_is_only_text(alone):
    """Markup in a title is shown as it was typed."""
    book, client = alone
    add_song(book, chart("<b>Bold</b> & co"))
    html = client.get("/songs").text
    assert "&lt;b&gt;Bold&lt;/b&gt; &amp; co" in html
    assert "“&lt;i&gt;”" in ask(client, find="<i>").text


@pytest.mark.parametrize(
    ("ago", "said"),
    [
        (0, "today"),
        (1, "yesterday"),
        (2, "Monday"),
        (6, "Thursday"),
        (7, "10 June"),
        (400, "May 2025"),
        (-3, "20 June"),
    ],
)
def test_days_are_said_as_people_do(ago, said):
    """Near days by their names, far ones by month and year; a day to come by its date."""
    today = date(2026, 6, 17)  # a Wednesday
    assert said_day(today - timedelta(days=ago), today) == said
