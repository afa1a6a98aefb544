"""The page *Song*: any key by one touch, for a singer or a player."""

import gzip
import re
from datetime import date
from html import unescape

import pytest

from fifthwise.book import (
    KeptSetSong,
    SetOrder,
    add_player,
    add_set,
    add_singer,
    add_song,
    last_sung,
    record_sung,
)
from fifthwise.evening import read_evening
from fifthwise.theory import read_key
from tests.web.conftest import DEMO

FRAGMENT = {"HX-Request": "true"}
LANTERN, NORTHERLY, SEVEN = 4, 8, 9
MAREN, TOBIAS = 1, 2


@pytest.fixture
def people(book):
    """The demo's singers and players; singer 1 is Maren, 2 Tobias."""
    evening = read_evening((DEMO / "harbour-lamp.set.yaml").read_text(encoding="utf-8"))
    for singer in evening.singers:
        add_singer(book, singer)
    return {player.name: add_player(book, player).id for player in evening.players}


def words(html):
    """What is read on a page, as one line."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html.replace("<small>", ""))).split())


def key_links(html):
    """The keys of the row: what is said of each, and where it leads."""
    row = html.split("data-key-row")[1].split("</nav>")[0]
    return [
        (words(told), unescape(href)) for href, told in re.findall(r'href="([^"]*)".*?>(.*?)</a>', row, re.S)
    ]


@pytest.mark.parametrize("key", ["", "Bb", "F%23", "Cb"])
def test_a_song_is_shown_in_the_key_of_its_address(client, key):
    """The page says the key, the whole page and the fragment alike."""
    page = client.get(f"/songs/3?key={key}")
    assert page.status_code == 200
    fragment = client.get(f"/songs/3?key={key}", headers=FRAGMENT)
    assert "<html" in page.text
    assert "<html" not in fragment.text
    assert fragment.text.strip() in page.text


@pytest.mark.parametrize(("song", "key"), [(LANTERN, "C"), (LANTERN, "Cb"), (NORTHERLY, "F#m"), (SEVEN, "D")])
def test_every_key_is_one_touch_away(client, song, key):
    """Each of the thirteen keys leads to the page in that key, and that page says that it is current."""
    links = key_links(client.get(f"/songs/{song}", params={"key": key}).text)
    assert len(links) == 13
    for told, href in links:
        current = re.search(r'aria-current="true">\s*<span class="who">.*?</a>', client.get(href).text, re.S)
        name = re.search(r"[A-G][♭♯]?m?(?: dorian)?(?=\s*, the|\s+same)", told)[0]
        assert name in words(current[0])


@pytest.mark.parametrize(("key", "other"), [("Gb", "F♯"), ("F#", "G♭")])
def test_the_two_ends_of_the_row_say_that_they_sound_the_same(client, key, other):
    """Where one is shown, the other says so in the row, and beside it."""
    html = client.get(f"/songs/{LANTERN}", params={"key": key}).text
    assert f"{other} same sound" in [told for told, _ in key_links(html)]
    assert f"{other} sounds the same" in words(html)


def test_minor_and_modal_keys_have_their_own_names(client):
    """A minor song's keys are minor; a mode is said with each key."""
    minor = [told for told, _ in key_links(client.get(f"/songs/{NORTHERLY}").text)]
    assert all(re.search(r"[A-G][♭♯]?m , the", told) for told in minor)
    assert any("E♭m" in told for told in minor)
    modal = [told for told, _ in key_links(client.get(f"/songs/{SEVEN}").text)]
    assert all("dorian" in told for told in modal)


@pytest.mark.parametrize("key", ["Gb", "C", "F#", "Cb"])
def test_seven_keys_are_near(client, key):
    """A telephone shows seven, the current one among them, wherever it stands in the row."""
    html = client.get(f"/songs/{LANTERN}", params={"key": key}).text
    near = re.findall(r'class="key-place"[^>]*>', html)
    assert len(near) == 7
    assert sum("aria-current" in place for place in near) == 1


def test_a_semitone_is_one_touch(client):
    """Down and up lead to the next keys, spelled with few accidentals."""
    html = client.get(f"/songs/{LANTERN}?key=F").text
    assert "Semitone down , to E" in words(html)
    assert "Semitone up , to G♭" in words(html)


@pytest.mark.parametrize(
    ("query", "told"),
    [
        ("key=H", "is no key"),
        ("show=notes", "'notes' is no way to show a chart"),
        ("for=singer:99", "no singer"),
        ("for=player:99", "no player"),
        ("for=dog:1", "nobody in the book"),
        ("for=singer:-1", "nobody in the book"),
        ("capo=12", "no fret for a capo"),
        ("capo=x", "no fret for a capo"),
        ("part=trumpit+in+Bb", "Did you mean 'trumpet in Bb'"),
        ("tune=2", "does not say whether"),
        ("at=2", "'2' is no place in a chart"),
        ("at=1.2.-1", "is no place in a chart"),
        ("at=1.2.99999", "is no place in a chart"),
        ("see=all", "'all' is nothing that a fingerboard shows"),
        ("hand=second", "'second' is no place for a hand"),
        ("board=violine", "Did you mean 'violin'"),
    ],
)
def test_what_cannot_be_had_is_told(client, query, told):
    """It says what, where and how to mend it."""
    answer = client.get(f"/songs/1?{query}")
    assert answer.status_code in (404, 422)
    assert told in unescape(answer.text)


def test_a_song_that_is_not_there_is_told(client):
    """With the way back."""
    answer = client.get("/songs/999")
    assert answer.status_code == 404
    assert "there is no song 999" in answer.text
    assert "sqlite" not in answer.text


def test_for_a_singer_the_key_is_the_one_that_suits(client, people):
    """Without a key in the address it is the best one; the page says why and draws it."""
    told = client.get(f"/songs/{LANTERN}?for=singer:{MAREN}").text
    assert "<title>Lantern on the Quay, in C" in told
    assert "Why C for Maren" in words(told)
    assert "the middle of what Maren sings easily" in words(told)
    assert 'class="voice"' in told


def test_the_address_goes_before_the_singer(client, people):
    """A key that was called stays, and the page says which would suit better."""
    told = words(client.get(f"/songs/{LANTERN}?for=singer:{MAREN}&key=G").text)
    assert "G was called; best for Maren: C, B, B♭." in told


def test_singers_stand_over_their_best_keys(client, people):
    """Each singer's name is in the row at the key that suits."""
    links = dict(
        (href.split("key=")[1], told) for told, href in key_links(client.get(f"/songs/{LANTERN}").text)
    )
    assert "best for Maren" in links["C"]
    assert "best for Tobias" in links["E"]
    assert "written" in links["G"]


def test_many_singers_over_one_key_are_counted(client, book, people):
    """Two are named, of the others it says how many."""
    evening = read_evening((DEMO / "harbour-lamp.set.yaml").read_text(encoding="utf-8"))
    for name in ("Ada", "Bo", "Cy"):
        add_singer(
            book, type(evening.singers[0])(name, evening.singers[0].usable, evening.singers[0].comfort)
        )
    told = [told for told, _ in key_links(client.get(f"/songs/{LANTERN}").text)]
    assert any("best for Ada best for Bo and 2 more C" in each for each in told)


def test_for_a_player_the_page_is_the_players_own(client, people):
    """The part, what stands in the bars and the key that is read are the player's."""
    told = client.get(f"/songs/{LANTERN}?for=player:{people['Lene']}&key=Bb").text
    assert "Lene, Trumpet in B♭" in words(told)
    assert "written in C, sounds in B♭" in words(told)
    letters = re.search(r'<nav class="choices" aria-label="In the bars".*?</nav>', told, re.S)[0]
    assert re.search(r'aria-current="true">(\w+)', letters)[1] == "Letters"


def test_a_part_and_a_capo_can_be_chosen_freely(client):
    """Letters are then the shapes, or the written key; a horn takes no capo."""
    assert "Capo 3 · shapes in G, sounds in B♭" in words(client.get(f"/songs/{LANTERN}?key=Bb&capo=3").text)
    horn = words(client.get(f"/songs/{LANTERN}?key=Bb&capo=3&part=horn+in+F").text)
    assert "Capo 3" not in horn
    assert "written in F, sounds in B♭" in horn


def test_a_song_without_a_tune_says_what_to_add(client, book, people):
    """And where: in its text."""
    row = add_song(book, "---\ntitle: Bare\nkey: G\n---\n1 | 4\n")
    html = client.get(f"/songs/{row.id}?for=singer:{MAREN}").text
    assert "The song has no tune yet" in words(html)
    assert f'href="/songs/{row.id}/edit"' in html


def test_a_book_without_singers_says_what_to_add(client):
    """And where."""
    html = client.get(f"/songs/{LANTERN}").text
    assert "The book has no singers yet" in words(html)
    assert 'href="/singers"' in html


def test_the_chart_alone_has_no_keys_and_no_side(client):
    """What is left is the chart, the steps and the way back."""
    html = client.get(f"/songs/{LANTERN}?key=A&only=1").text
    assert "data-key-row" not in html
    assert "<aside" not in html
    assert re.search(r'data-key="leave" href="/songs/4\?key=A"', html)


def test_the_short_address_goes_into_the_history(client):
    """What a form leaves empty is not in the address that the browser keeps."""
    answer = client.get(f"/songs/{LANTERN}?key=A&part=&capo=0&show=", headers=FRAGMENT)
    assert answer.headers["hx-push-url"] == f"/songs/{LANTERN}?key=A&capo=0"


def test_whatever_a_title_holds_is_text(client, book, people):
    """Markup in it is shown, never obeyed, and there is no style or script in the page."""
    head = '---\ntitle: <script>alert(1)</script> & "x"\nby: <b>y</b>\nkey: G\nlowest: 1\nhighest: 5\n---\n'
    row = add_song(book, head + "1 | 4\n")
    html = client.get(f"/songs/{row.id}?for=singer:{MAREN}").text
    assert "<script>alert" not in html
    assert "<b>y" not in html
    assert not re.search(r"<[^>]* (?:style|on\w+)=", html)
    assert re.findall(r"<script(?![^>]* src=)", html) == []


def test_a_rekey_is_small(client, people):
    """What is sent for another key stays below 12 kB, with the demo's songs and people."""
    for song in range(1, 12):
        content = client.get(f"/songs/{song}?for=singer:{TOBIAS}", headers=FRAGMENT).content
        assert len(gzip.compress(content, 5)) < 12_000


def test_a_song_sung_tonight_is_noted(client, book, people):
    """The key stands in the book, the page says it, and the same page is shown again."""
    form = {"for": f"singer:{MAREN}", "key": "Bb", "show": "numbers"}
    answer = client.post(f"/songs/{LANTERN}/sung", data=form)
    assert str(answer.url).endswith(f"/songs/{LANTERN}?key=Bb&show=numbers&for=singer:{MAREN}")
    assert "Maren sang it in B♭ on" in words(answer.text)
    (sung,) = last_sung(book, LANTERN)
    assert (sung.singer_id, sung.key) == (MAREN, read_key("Bb"))


def test_an_older_year_is_said(client, book, people):
    """A day of another year has its year."""
    record_sung(book, TOBIAS, LANTERN, read_key("E"), date(2019, 6, 14))
    assert "Tobias sang it in E on 14 June 2019." in words(client.get(f"/songs/{LANTERN}").text)


@pytest.mark.parametrize("form", [{}, {"for": "singer:1"}, {"key": "A"}, {"for": "player:1", "key": "A"}])
def test_nothing_is_noted_without_singer_and_key(client, book, people, form):
    """It says what is missing."""
    answer = client.post(f"/songs/{LANTERN}/sung", data=form)
    assert answer.status_code == 422
    assert "who sang in which key" in answer.text
    assert last_sung(book, LANTERN) == ()


def test_a_song_is_removed_after_being_asked(client):
    """The page asks first; then the song is gone."""
    asked = client.get(f"/songs/{LANTERN}/remove").text
    version = re.search(r'name="version" value="(\d+)"', asked)[1]
    assert client.get(f"/songs/{LANTERN}").status_code == 200
    assert client.post(f"/songs/{LANTERN}/remove", data={"version": version}).url.path == "/songs"
    assert client.get(f"/songs/{LANTERN}").status_code == 404


@pytest.mark.parametrize(("version", "status"), [("7", 409), ("", 422), ("x", 422)])
def test_a_song_that_was_not_seen_is_not_removed(client, version, status):
    """An older or no version keeps it."""
    assert client.post(f"/songs/{LANTERN}/remove", data={"version": version}).status_code == status
    assert client.get(f"/songs/{LANTERN}").status_code == 200


def test_a_song_that_stands_in_a_set_is_not_removed(client, book):
    """The fault names the set."""
    add_set(book, SetOrder("The Harbour Lamp dance", songs=(KeptSetSong(LANTERN),)))
    answer = client.post(f"/songs/{LANTERN}/remove", data={"version": "1"})
    assert answer.status_code in (409, 422)
    assert "The Harbour Lamp dance" in answer.text
    assert client.get(f"/songs/{LANTERN}").status_code == 200


def test_what_print_leaves_out_is_told_beside_print(client, book):
    """The song and the letters that our fonts lack are named; other songs say nothing."""
    text = (DEMO / "black-buoy.chart.md").read_text(encoding="utf-8")
    kept = add_song(book, text.replace("title: Black Buoy", "title: שלום"))
    told = "“ שלום ”: print has no ש ל ו ם and puts “?” there."
    assert told in words(client.get(f"/songs/{kept.id}").text)
    assert told in words(client.get(f"/songs/{kept.id}", headers=FRAGMENT).text)
    assert "print has no" not in client.get("/songs/1").text
