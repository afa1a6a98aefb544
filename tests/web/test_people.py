"""The pages *Singers* and *Players*."""

import re
from datetime import date
from html import unescape
from itertools import pairwise

import pytest

from fifthwise.book import (
    SetOrder,
    add_player,
    add_set,
    add_singer,
    player,
    players,
    record_sung,
    save_player,
    save_singer,
    singer,
    singers,
)
from fifthwise.evening import Player, part_of
from fifthwise.theory import read_key
from fifthwise.voice import read_singer

MAREN = {"name": "Maren", "low": "F3", "high": "D5", "easy_low": "A3", "easy_high": "Bb4"}
INES = {"name": "Ines", "instrument": "fiddle", "level": "third"}


@pytest.fixture
def maren(book):
    """A singer of the book."""
    return add_singer(book, read_singer("Maren", usable="F3-D5", comfort="A3-Bb4"))


@pytest.fixture
def ines(book):
    """A player of the book."""
    return add_player(book, Player("Ines", part_of("fiddle"), "third"))


def words(html):
    """What is read on a page, as one line."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


@pytest.mark.parametrize(("room", "asks"), [("singers", "three things"), ("players", "who plays what")])
def test_an_empty_room_says_what_to_do(client, room, asks):
    """It leads to the form of a new one."""
    page = client.get(f"/{room}").text
    assert asks in words(page)
    assert f'href="/{room}/new"' in page


@pytest.mark.parametrize(("room", "form"), [("singers", MAREN), ("players", INES)])
def test_a_new_one_is_kept_and_stands_in_the_list(client, room, form):
    """The form leads to the person's own page, which says that it is saved."""
    answer = client.post(f"/{room}/new", data=form)
    assert answer.url.path == f"/{room}/1"
    assert "Saved." in words(answer.text)
    assert f'href="/{room}/1"' in client.get(f"/{room}").text


def test_voices_stand_to_one_scale(client, book):
    """A note that two voices share stands at one place."""
    for name, usable, comfort in (("Nell", "C2-D4", "E2-G3"), ("Siv", "D4-C6", "G4-F5")):
        add_singer(book, read_singer(name, usable=usable, comfort=comfort))
    lines = client.get("/singers").text.split("<tbody>")[1].split("</tr>")
    reach = [re.findall(r'class="reach" x1="([\d.]+)%" x2="([\d.]+)%"', line)[0] for line in lines[:2]]
    assert reach[0][1] == reach[1][0]
    assert float(reach[0][0]) < float(reach[0][1]) < float(reach[1][1])


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", "שרה בן־דוד", "🎤 Pip", "a" * 100])
@pytest.mark.parametrize(("room", "form"), [("singers", MAREN), ("players", INES)])
def test_any_name_is_shown_as_it_is(client, room, form, text):
    """A name is never markup."""
    page = client.post(f"/{room}/new", data=form | {"name": text})
    for html in (page.text, client.get(f"/{room}").text, client.get(f"/{room}/1/remove").text):
        assert text in unescape(html)
        assert "<script>alert" not in html


def test_faults_stand_at_their_fields_and_the_texts_stay(client, book):
    """The answer is 422, nothing is kept, and each fault is tied to its field."""
    answer = client.post("/singers/new", data=MAREN | {"low": "H3", "name": ""})
    assert answer.status_code == 422
    assert 'value="H3"' in answer.text
    for field in ("low", "name"):
        assert re.search(
            rf'id="{field}"[^>]*aria-invalid="true"[^>]*aria-describedby="{field}-wrong', answer.text
        )
        assert f'id="{field}-wrong"' in answer.text
    assert singers(book) == ()


def test_a_name_that_is_taken_is_told_at_the_name(client, maren, ines):
    """In both rooms, for a new one and for one that is renamed."""
    client.post("/singers/new", data=MAREN | {"name": "Tobias"})
    client.post("/players/new", data=INES | {"name": "Runa"})
    for address, form in (
        ("/singers/new", MAREN),
        ("/singers/2", MAREN | {"version": "1"}),
        ("/players/new", INES),
        ("/players/2", INES | {"version": "1"}),
    ):
        answer = client.post(address, data=form)
        assert answer.status_code == 422
        assert "already a" in answer.text.split('id="name-wrong"')[1].split("</p>")[0]


def test_a_singer_is_changed(client, book, maren):
    """The new notes are in the book, and the version goes up."""
    client.post("/singers/1", data=MAREN | {"turn": "f 4", "version": "1"})
    kept = singer(book, maren.id)
    assert kept.version == 2
    assert [str(note) for note in kept.singer.turns] == ["F4"]


def test_two_who_change_a_singer_lose_nothing(client, book, maren):
    """The later one sees both states, and may save over the newer one."""
    save_singer(book, maren.id, read_singer("Maren", usable="E3-D5", comfort="A3-Bb4"), 1)
    answer = client.post("/singers/1", data=MAREN | {"high": "C5", "version": "1"})
    assert answer.status_code == 409
    table = words(answer.text.split('class="list both"')[1].split("</table>")[0])
    assert "Lowest note F3 E3" in table
    assert "Highest note C5 D5" in table
    assert "Easy" not in table
    assert "Save mine over it" in answer.text
    version = re.search(r'name="version" value="(\d+)"', answer.text)[1]
    client.post("/singers/1", data=MAREN | {"high": "C5", "version": version})
    assert str(singer(book, maren.id).singer.usable) == "F3 to C5"


def test_two_who_change_a_player_lose_nothing(client, book, ines):
    """Both states are told in the words of the form."""
    save_player(book, ines.id, Player("Ines", part_of("viola"), "first"), 1)
    answer = client.post("/players/1", data=INES | {"version": "1"})
    assert answer.status_code == 409
    table = words(answer.text.split('class="list both"')[1].split("</table>")[0])
    assert "Instrument Fiddle Viola" in table
    assert "Up to third position First position" in table
    assert player(book, ines.id).player.part.name == "viola"


def test_a_fault_does_not_hide_a_conflict(client, book, maren):
    """After the fault is mended, the version that was seen is still asked for."""
    save_singer(book, maren.id, read_singer("Maren", usable="E3-D5", comfort="A3-Bb4"), 1)
    faulty = client.post("/singers/1", data=MAREN | {"high": "", "version": "1"})
    assert 'name="version" value="1"' in faulty.text


@pytest.mark.parametrize("room", ["singers", "players"])
def test_one_is_removed_after_asking(client, book, maren, ines, room):
    """The question has its own page; the old version removes nothing."""
    assert "Remove" in client.get(f"/{room}/1/remove").text
    assert client.post(f"/{room}/1/remove", data={"version": "7"}).status_code == 409
    assert client.get(f"/{room}/1").status_code == 200
    assert client.post(f"/{room}/1/remove", data={"version": "1"}).url.path == f"/{room}"
    assert client.get(f"/{room}/1").status_code == 404
    assert (singers if room == "singers" else players)(book) == ()


def test_who_stands_in_a_set_stays(client, book, maren):
    """The answer names the set."""
    add_set(book, SetOrder(name="The Harbour Lamp dance", singer_ids=(maren.id,)))
    answer = client.post("/singers/1/remove", data={"version": "1"})
    assert answer.status_code == 409
    assert "The Harbour Lamp dance" in words(answer.text)
    assert singers(book)


def test_what_was_sung_leads_to_the_song_in_that_key(client, book, maren):
    """The newest stands first, and its link shows the song for this singer in the key of that day."""
    record_sung(book, maren.id, 4, read_key("C"), date(2019, 5, 1))
    record_sung(book, maren.id, 3, read_key("Bb"), date(2020, 5, 1))
    page = client.get("/singers/1").text
    sung = page.split("<h2>Sang</h2>")[1].split("</table>")[0]
    assert words(sung).index("1 May 2020") < words(sung).index("1 May 2019")
    song = client.get(unescape(re.search(r'href="([^"]*)"', sung)[1])).text
    assert "in B♭ –" in song
    assert "Maren sings" in song
    assert '<td class="figure">2<' in client.get("/singers").text


def test_keys_that_fit_begin_with_the_songs_that_were_sung(client, book, maren):
    """Each song has three keys; the best is what the song's own page gives this singer."""
    record_sung(book, maren.id, 8, read_key("F#m"), date(2020, 5, 1))
    rows = client.get("/singers/1").text.split('class="list fits"')[1].split("<tbody>")[1].split("</tr>")[:-1]
    assert "Northerly" in words(rows[0])
    links = [unescape(href) for href in re.findall(r'href="([^"]*)"', rows[0])]
    assert len(links) == 3
    title = re.compile(r"<title>(.*?)</title>")
    best, own = client.get(links[0]).text, client.get("/songs/8?for=singer:1").text
    assert title.search(best)[1] == title.search(own)[1]


@pytest.mark.parametrize(
    ("notes", "told", "lowest"),
    [
        ({}, "No notes yet.", "C2"),
        ({"low": "bb 2"}, "Reaches B♭2 to ?.", "C2"),
        ({"low": "A1", "high": "E4", "turn": "D4"}, "Reaches A1 to E4, turns at D4.", "C1"),
        ({"low": "x", "easy_low": "C3", "easy_high": "E4"}, "Easy C3 to E4.", "C2"),
    ],
)
def test_the_keyboard_follows_the_fields(client, notes, told, lowest):
    """What can be read is drawn, and a voice beyond the keys makes more of them."""
    picture = client.get("/singers/keyboard", params=notes).text
    assert told in words(picture)
    assert "<html" not in picture
    assert re.search(r'data-note="([^"]*)"', picture)[1] == lowest


def test_each_key_of_the_keyboard_is_a_note(client):
    """Forty-nine keys from C2 to C6, twenty of them black, each with a name that the form reads."""
    picture = client.get("/singers/keyboard").text
    keys = re.findall(r'class="(\w+)" x="([\d.]+)".*?data-note="([^"]*)"', picture)
    assert len(keys) == 49
    assert sum(kind == "black" for kind, _, _ in keys) == 20
    for _, _, note in keys:
        assert client.get("/singers/keyboard", params={"low": note}).text.count('class="reach"') == 1


def test_the_middle_of_a_black_key_is_between_its_neighbours(client):
    """The marks over the keys rise by half a white key, or by a whole one where there is no black key."""
    places = []
    for note in ("C4", "C#4", "D4", "Eb4", "E4", "F4", "F#4", "G4", "Ab4", "A4", "Bb4", "B4", "C5"):
        picture = client.get("/singers/keyboard", params={"low": note}).text
        places.append(float(re.search(r'class="reach" x1="([\d.]+)"', picture)[1]))
    steps = [after - before for before, after in pairwise(places)]
    assert set(steps) == {10.0, 20.0}
    assert [place for place, step in enumerate(steps) if step == 20] == [4, 11]


def test_a_player_has_a_page_of_the_first_song(client, ines):
    """The link shows the song as that player has it."""
    page = client.get("/players/1").text
    href = unescape(re.search(r'href="(/songs/[^"]*)"', page)[1])
    assert "Ines, Fiddle" in words(client.get(href).text)


def test_instruments_are_grouped(client):
    """Bowed strings come first and are marked, so that the level is asked of them alone."""
    page = client.get("/players/new").text
    bowed, others = page.split("<optgroup")[1:]
    assert "Bowed strings" in bowed
    assert 'value="double bass" class="bowed' in bowed
    assert 'value="guitar" class="may-capo' in others


@pytest.mark.parametrize(
    "address", ["/singers/99", "/singers/99/remove", "/players/99", "/players/99/remove"]
)
def test_nobody_is_told_as_a_fault(client, address):
    """Someone who is not in the book is answered with 404 and where to look."""
    answer = client.get(address)
    assert answer.status_code == 404
    assert "Look for it in the list" in answer.text
