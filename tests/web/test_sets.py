"""The pages of sets, asked for by their routes."""

import html
import io
import json
import re
import threading
import zipfile
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from pypdf import PdfReader

from fifthwise.book import (
    KeptSetSong,
    SetOrder,
    add_player,
    add_set,
    add_singer,
    add_song,
    kept_set,
    last_sung,
    save_set,
    sets,
    sung_by,
)
from fifthwise.evening import read_evening
from fifthwise.web.set_print import zipped

DEMO = Path(__file__).parents[2] / "demo"
HTMX = {"HX-Request": "true"}
MAREN, TOBIAS = 1, 2


@pytest.fixture
def evening(book):
    """Lantern on the Quay for Maren, Low Water for Tobias in G#m, an instrumental, Lantern again."""
    demo = read_evening((DEMO / "harbour-lamp.set.yaml").read_text(encoding="utf-8"))
    for singer in demo.singers:
        add_singer(book, singer)
    for player in demo.players:
        add_player(book, player)
    songs = (
        KeptSetSong(4, MAREN),
        KeptSetSong(6, TOBIAS, "G#m"),
        KeptSetSong(2, None, None, "Bram", True),
        KeptSetSong(4),
    )
    return add_set(book, SetOrder("Lamp night", "2025-12-05", "a4", (MAREN, TOBIAS), (1, 4), songs))


@pytest.fixture
def at(evening):
    """The set's address."""
    return f"/sets/{evening.id}"


def form(evening, **more):
    """The running order as the page sends it."""
    songs = evening.order.songs
    fields = {"version": evening.version, "songs": ",".join(str(song.song_id) for song in songs), "order": ""}
    for place, song in enumerate(songs, 1):
        fields |= {
            f"singer-{place}": song.singer_id or "",
            f"key-{place}": song.key or "",
            f"counts-{place}": song.counts_in or "",
        } | ({f"segue-{place}": "on"} if song.segue else {})
    return fields | more


def words(response):
    """What a page says, in one line."""
    return " ".join(re.sub(r"<[^>]+>", " ", response.text).split())


def ids(book, evening):
    """The songs as they are kept."""
    return [song.song_id for song in kept_set(book, evening.id).order.songs]


def test_an_empty_book_says_what_to_do(client):
    """No list, and what a set is for."""
    page = client.get("/sets")
    assert page.status_code == 200
    assert "Begin with its name" in page.text


def test_a_set_is_begun(client, book, evening):
    """It opens, empty, with all singers and players of the book there."""
    page = client.post("/sets", data={"name": " Quay ", "date": "2027-01-02", "paper": "letter"})
    assert page.url.path == "/sets/2"
    assert "No songs yet" in page.text
    order = kept_set(book, 2).order
    assert (order.name, order.paper, order.singer_ids) == ("Quay", "letter", (MAREN, TOBIAS))
    assert sorted(order.player_ids) == [1, 2, 3, 4, 5, 6]


@pytest.mark.parametrize(
    ("typed", "told"), [({"name": ""}, "Write a name"), ({"name": "Q", "date": "2026-02-31"}, "no day")]
)
def test_a_set_that_cannot_be_begun_loses_nothing(client, book, typed, told):
    """The fault is told over what was typed."""
    page = client.post("/sets", data={"paper": "letter", **typed})
    assert page.status_code == 422
    assert told in page.text
    assert f'value="{typed.get("date", "")}"' in page.text
    assert sets(book) == ()


def test_sets_are_listed_with_songs_and_minutes(client, evening):
    """The day is written out; 1:40, 2:21, 1:26 and 1:40 are 7:07."""
    page = client.get("/sets")
    assert "Friday 5 December 2025 4 7 New evening" in words(page)


def test_a_row_has_its_key_for_its_singer(client, at):
    """The title leads to the song in tonight's key, for whoever sings it."""
    page = client.get(at)
    assert 'href="/songs/4?key=C&amp;for=singer:1"' in page.text
    assert 'href="/songs/6?key=G%23m&amp;for=singer:2"' in page.text
    assert "Maren in C" in words(page)
    assert "Tobias in G♯ minor" in words(page)
    assert "no singer" in words(page)
    assert "Best for Maren: C" in page.text
    assert "Bram counts in, then straight on" in words(page)


def test_times_run_from_the_first_song(client, at):
    """In hours and minutes, the length of each beside it: Lantern on the Quay lasts 1:40."""
    told = words(client.get(at))
    assert "starts at 0:00" in told
    assert "starts at 0:01" in told
    assert "length 1:40" in told


def test_a_called_key_tells_why_and_what_suits_better(client, at):
    """One sentence and the reasons, in the row and at the side."""
    page = client.get(f"{at}?row=2")
    assert page.text.count("G♯m was called; best for Tobias") == 2


def test_what_to_look_at_names_its_mend(client, book, evening, at):
    """Under its song and at the side."""
    same = tuple(KeptSetSong(4, singer) for singer in (MAREN, MAREN, TOBIAS, MAREN))
    order = kept_set(book, evening.id).order
    save_set(book, evening.id, SetOrder(order.name, songs=same), 1)
    page = client.get(at)
    assert page.text.count("Swap it with another, or count it off differently") == 6


@pytest.mark.parametrize(
    ("more", "found", "shown"),
    [
        ({"do": "up-2"}, [6, 4, 2, 4], "row-1"),
        ({"do": "down-2"}, [4, 2, 6, 4], "row-3"),
        ({"do": "out-3"}, [4, 6, 4], ""),
        ({"order": "4,3,2,1"}, [4, 2, 6, 4], ""),
    ],
)
def test_the_order_is_changed(client, book, evening, at, more, found, shown):
    """By its buttons, and by a new order of places; the page comes back at the row."""
    page = client.post(at, data=form(evening, **more))
    assert page.status_code == 200
    assert ids(book, evening) == found
    assert page.url.fragment == shown


def test_a_row_is_changed(client, book, evening, at):
    """Singer, key, who counts in, straight on."""
    more = {"singer-1": TOBIAS, "key-1": "Ab", "counts-1": "the drummer", "segue-1": "on", "do": "save-1"}
    client.post(at, data=form(evening, **more))
    assert kept_set(book, evening.id).order.songs[0] == KeptSetSong(4, TOBIAS, "Ab", "the drummer", True)


def test_a_script_gets_the_order_alone(client, evening, at):
    """The same page, without its frame."""
    page = client.post(at, data=form(evening, order="2,1,3,4"), headers=HTMX)
    assert page.text.startswith('<div class="with-side">')
    assert "<html" not in page.text


def hidden(page, address):
    """The hidden fields of a page's form that posts to an address."""
    found = re.search(rf'<form[^>]*method="post" action="{address}".*?</form>', page.text, re.DOTALL)
    fields = re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', found[0])
    return {name: html.unescape(value) for name, value in fields}


def test_what_two_change_apart_is_kept_of_both(client, book, evening, at):
    """Another field, another song, another part: nothing of either is lost, and it is said."""
    read = client.get(at)
    assert client.post(at, data=form(evening, **{"key-2": "Am"})).status_code == 200
    assert (
        client.post(f"{at}/head", data={"version": 2, "name": "Late", "paper": "letter"}).status_code == 200
    )
    more = {"counts-2": "Odile", "singer-3": TOBIAS, "do": "down-2", **hidden(read, at)}
    page = client.post(at, data=form(evening) | more)
    assert page.status_code == 200
    assert "Kept, beside what somebody else changed meanwhile." in words(page)
    assert page.url.fragment == "row-3"
    order = kept_set(book, evening.id).order
    assert order.songs == (
        evening.order.songs[0],
        KeptSetSong(2, TOBIAS, None, "Bram", True),
        KeptSetSong(6, TOBIAS, "Am", "Odile"),
        evening.order.songs[3],
    )
    assert (order.name, order.paper) == ("Late", "letter")


def test_a_conflict_tells_both_values_and_offers_ones_own(client, book, evening, at):
    """The one field that clashes is told with what each wanted; the rest is kept; one touch puts mine in."""
    read = client.get(at)
    client.post(at, data=form(evening, **{"key-2": "Am", "counts-3": "Maren"}))
    mine = {"key-2": "Bm", "counts-2": "Odile", **hidden(read, at)}
    page = client.post(at, data=form(evening) | mine)
    told = words(page)
    assert page.status_code == 409
    assert "Somebody else changed the same meanwhile" in told
    assert "Not kept of yours: “Low Water”: in Bm; now: in Am. Keep mine" in told
    assert "nobody counts in" not in told
    assert kept_set(book, evening.id).order.songs[1] == KeptSetSong(6, TOBIAS, "Am", "Odile")
    page = client.post(at, data=hidden(page, at))
    assert page.status_code == 200
    songs = kept_set(book, evening.id).order.songs
    assert songs[1] == KeptSetSong(6, TOBIAS, "Bm", "Odile")
    assert songs[2] == KeptSetSong(2, None, None, "Maren", True)


def test_a_conflict_over_the_head_names_both_names(client, book, evening, at):
    """The day that only one changed is kept."""
    read = client.get(at)
    client.post(f"{at}/head", data={"version": 1, "name": "Quay", "date": "2025-12-05", "paper": "a4"})
    mine = {**hidden(read, f"{at}/head"), "name": "Pier", "date": "2025-12-06", "paper": "a4"}
    page = client.post(f"{at}/head", data=mine)
    assert page.status_code == 409
    assert "the name “Pier”; now: the name “Quay”." in words(page)
    order = kept_set(book, evening.id).order
    assert (order.name, order.date) == ("Quay", "2025-12-06")
    client.post(f"{at}/head", data=hidden(page, f"{at}/head"))
    assert kept_set(book, evening.id).order.name == "Pier"


def test_a_song_that_stands_twice_is_told_with_its_place(client, book, evening, at):
    """Lantern on the Quay is the first and the last song: what is kept and what clashes is each its own."""
    read = client.get(at)
    client.post(at, data=form(evening, **{"key-4": "Ab", "counts-1": "Bram"}))
    page = client.post(at, data=form(evening) | {"key-4": "Bb", "segue-1": "on", **hidden(read, at)})
    assert page.status_code == 409
    assert "Not kept of yours: “Lantern on the Quay”, song 4: in B♭; now: in A♭. Keep mine" in words(page)
    songs = kept_set(book, evening.id).order.songs
    assert (songs[0], songs[3]) == (KeptSetSong(4, MAREN, None, "Bram", True), KeptSetSong(4, None, "Ab"))
    client.post(at, data=hidden(page, at))
    songs = kept_set(book, evening.id).order.songs
    assert (songs[0], songs[3]) == (KeptSetSong(4, MAREN, None, "Bram", True), KeptSetSong(4, None, "Bb"))


def test_a_song_taken_out_and_changed_is_a_conflict(client, book, evening, at):
    """Whoever changed it is told that it is gone, and may have it back."""
    read = client.get(at)
    client.post(at, data=form(evening, do="out-2"))
    page = client.post(at, data=form(evening) | {"key-2": "Bm", **hidden(read, at)})
    assert page.status_code == 409
    assert "“Low Water”: sung by Tobias, in Bm; it was taken out." in words(page)
    client.post(at, data=hidden(page, at))
    assert KeptSetSong(6, TOBIAS, "Bm") in kept_set(book, evening.id).order.songs


def test_two_running_orders_are_a_conflict(client, book, evening, at):
    """One's own order is told, and one touch puts it in beside the other's key."""
    read = client.get(at)
    client.post(at, data=form(evening, **{"do": "down-1", "key-2": "Bm"}))
    page = client.post(at, data=form(evening) | {"do": "up-3", **hidden(read, at)})
    assert page.status_code == 409
    told = "your order of the songs: Lantern on the Quay, Gull on the Crane, Low Water, Lantern on the Quay."
    assert told in words(page)
    assert ids(book, evening) == [6, 4, 2, 4]
    client.post(at, data=hidden(page, at))
    assert ids(book, evening) == [4, 2, 6, 4]
    assert kept_set(book, evening.id).order.songs[2] == KeptSetSong(6, TOBIAS, "Bm")


def test_those_who_come_and_go_are_kept_of_both(client, book, evening, at):
    """Who ticks one does not untick what another ticked."""
    read = client.get(at)
    client.post(f"{at}/here", data={"version": 1, "singer-1": "on", "singer-2": "on", "player-4": "on"})
    mine = {"singer-1": "on", "singer-2": "on", "player-1": "on", "player-4": "on", "player-5": "on"}
    page = client.post(f"{at}/here", data={**hidden(read, f"{at}/here"), **mine})
    assert page.status_code == 200
    assert kept_set(book, evening.id).order.player_ids == (4, 5)


@pytest.mark.parametrize(
    "crafted",
    [
        {"songs": "1,1,1", "order": "9,9", "do": "out-99"},
        {"songs": "1,1,1"},
        {"order": "9,9"},
        {"do": "out-99"},
        {"version": "99"},
        {"version": "99", "was": "songs=0"},
        {"singer-1": "maren"},
        {"singer-1": "-1"},
    ],
)
def test_a_form_of_no_page_of_ours_changes_nothing(client, book, evening, at, crafted):
    """It is refused, with what to do."""
    page = client.post(at, data=form(evening) | crafted)
    assert page.status_code == 422
    assert "Open the set again" in words(page)
    assert kept_set(book, evening.id) == evening


def test_a_form_with_other_people_than_the_page_changes_nothing(client, book, evening, at):
    """Who is there, and who sings the song that is put in, are numbers of the book."""
    for address, crafted in (
        (f"{at}/here", {"version": 1, "singer-x": "on", "player-0": "on"}),
        (f"{at}/songs", {"song_id": "6", "singer_id": "maren"}),
    ):
        page = client.post(address, data=crafted)
        assert page.status_code == 422
        assert "the form names nobody of the book" in words(page)
    assert kept_set(book, evening.id) == evening


def test_a_key_that_is_none_of_the_song_is_told_at_its_row(client, book, evening, at):
    """The page stays usable, and the key that suits stands in."""
    page = client.post(at, data=form(evening, **{"key-1": "Em"}))
    assert page.status_code == 200
    assert "Em, no key of this song" in page.text
    assert "“Em” is minor, but “Lantern on the Quay” is in G" in page.text
    assert client.get(f"{at}/set.html").status_code == 200


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ({"key-1": "H"}, "song 1"),
        ({"counts-1": "x" * 101}, "101 characters"),
        ({"singer-1": "77"}, "no singer 77"),
    ],
)
def test_what_cannot_be_kept_is_told(client, book, evening, at, more, told):
    """Over the order as it is kept."""
    page = client.post(at, data=form(evening, **more))
    assert page.status_code == 422
    assert told in page.text
    assert "Lantern on the Quay" in page.text
    assert kept_set(book, evening.id).version == 1
    assert book.where not in page.text


def test_a_song_is_found_and_put_in(client, book, evening, at):
    """Those with the words in their title come first; the new song is the last row, open."""
    page = client.get(f"{at}/find", params={"find": "low"})
    found = re.findall(r'id="put-(\d+)"', page.text)
    assert found[0] == "6"
    assert client.get(f"{at}/find", params={"find": "low"}, headers=HTMX).text.startswith("<form")
    page = client.post(f"{at}/songs", data={"song_id": "6", "find": "low"})
    assert ids(book, evening) == [4, 6, 2, 4, 6]
    assert page.url.fragment == "row-5"
    assert "It is in, at the end." in page.text


def test_a_song_comes_in_with_singer_and_key(client, book, evening, at):
    """As the page Song sends it."""
    client.post(f"{at}/songs", data={"song_id": "6", "singer_id": "2", "key": "Bm"})
    assert kept_set(book, evening.id).order.songs[-1] == KeptSetSong(6, TOBIAS, "Bm")


def test_the_page_song_chooses_a_set(client, book, evening):
    """Its form names the set, the singer whose page it is, and the key that was called."""
    page = client.get("/songs/6?for=singer:2&key=Bm")
    found = dict(
        re.findall(r'<input type="hidden" name="(song_id|singer_id|key)" value="([^"]*)"', page.text)
    )
    assert "Lamp night, 2025-12-05" in page.text
    client.post("/sets/songs", data={**found, "set_id": "1"})
    assert kept_set(book, evening.id).order.songs[-1] == KeptSetSong(6, TOBIAS, "Bm")


def test_a_song_that_is_gone_is_told(client, at):
    """Not put in, and said so."""
    page = client.post(f"{at}/songs", data={"song_id": "99"})
    assert page.status_code == 404
    assert "there is no song 99" in page.text


def test_nothing_found_says_so(client, at):
    """With a way on."""
    assert "No song has “zzz” in it" in client.get(f"{at}/find?find=zzz").text


def test_who_is_there_is_kept(client, book, evening, at):
    """Whoever sings a song keeps a column."""
    page = client.post(f"{at}/here", data={"version": 1, "singer-2": "on", "player-3": "on"})
    order = kept_set(book, evening.id).order
    assert (order.singer_ids, order.player_ids) == ((2,), (3,))
    assert "Maren in C" in words(page)


def test_the_head_is_kept(client, book, evening, at):
    """Name, day and paper."""
    page = client.post(f"{at}/head", data={"version": 1, "name": "Quay night", "date": "", "paper": "letter"})
    assert page.status_code == 200
    order = kept_set(book, evening.id).order
    assert (order.name, order.date, order.paper, len(order.songs)) == ("Quay night", None, "letter", 4)


def test_a_set_is_removed_after_asking(client, book, evening, at):
    """Its songs stay."""
    assert "Keep it" in client.get(f"{at}/remove").text
    page = client.post(f"{at}/remove", data={"version": "1"})
    assert page.url.path == "/sets"
    assert sets(book) == ()
    assert client.get(at).status_code == 404


def test_what_was_played_is_noted(client, book, evening, at):
    """Each singer's songs in the keys of the night, on its day."""
    page = client.post(f"{at}/played")
    assert "Noted" in page.text
    noted = [(sung.singer_id, str(sung.key), sung.on) for song in (4, 6) for sung in last_sung(book, song)]
    assert noted == [(1, "C", date(2025, 12, 5)), (2, "G# minor", date(2025, 12, 5))]


def test_an_evening_that_is_still_to_come_is_not_noted(client, book, evening, at):
    """Nobody has sung it yet."""
    order = kept_set(book, evening.id).order
    tomorrow = (date.today() + timedelta(days=1)).isoformat()
    save_set(book, evening.id, replace(order, date=tomorrow), 1)
    page = client.post(f"{at}/played")
    assert page.status_code == 422
    assert "this evening is still to come" in page.text
    assert sung_by(book, MAREN) == ()


def test_a_set_without_a_date_is_noted_today(client, book, evening, at):
    """What was played was played now."""
    order = kept_set(book, evening.id).order
    save_set(book, evening.id, SetOrder("Lamp night", "midsummer", songs=order.songs), 1)
    client.post(f"{at}/played")
    assert {sung.on for sung in sung_by(book, MAREN)} == {date.today()}


def test_nothing_is_noted_where_nobody_sings(client, book, evening, at):
    """The fault says what to do first."""
    save_set(book, evening.id, SetOrder("Lamp night", songs=(KeptSetSong(2),)), 1)
    assert client.post(f"{at}/played").status_code == 422
    assert "We played this" not in client.get(at).text


def test_the_evening_goes_out_as_one_page_for_a_player(client, at):
    """It needs nothing, and its policy lets it ask for nothing."""
    page = client.get(f"{at}/set.html?player=1")
    assert 'filename="lamp-night-ines.html"' in page.headers["content-disposition"]
    assert "Ines" in page.text
    assert "sandbox" in page.headers["content-security-policy"]


def test_the_evening_goes_out_as_text(client, at):
    """Charts are named by files as their songs are called."""
    page = client.get(f"{at}/any.set.yaml")
    found = read_evening(page.text)
    assert [song.chart for song in found.songs] == [
        "lantern-on-the-quay.chart.md",
        "low-water.chart.md",
        "gull-on-the-crane.chart.md",
        "lantern-on-the-quay.chart.md",
    ]
    assert found.songs[1].key == "G#m"


def test_everyones_book_is_printed(client, book, evening, at):
    """A page tells how far it is; then every file, and all as one ZIP."""
    order = kept_set(book, evening.id).order
    save_set(
        book, evening.id, SetOrder("Lamp night", player_ids=(4,), songs=(KeptSetSong(4, MAREN, "Em"),)), 1
    )
    page = client.post(f"{at}/print")
    printing = page.url.path
    assert order
    assert 'hx-trigger="every 500ms"' in page.text or "are made" in page.text
    page = waited(client, printing)
    links = re.findall(r'href="([^"]*/files/[^"]*)"', page.text)
    assert len(links) == 6
    assert client.get(links[0]).content.startswith(b"%PDF")
    zip_file = client.get(f"{printing}/all.zip")
    assert 'filename="lamp-night.zip"' in zip_file.headers["content-disposition"]
    with zipfile.ZipFile(io.BytesIO(zip_file.content)) as archive:
        assert archive.testzip() is None
        kinds = {Path(entry.filename).suffix: entry.compress_type for entry in archive.infolist()}
        assert kinds[".pdf"] == zipfile.ZIP_STORED
        assert "lamp-night/books/bram-bass.pdf" in archive.namelist()


def test_a_tick_puts_tunes_on_a_staff_in_the_books(client, book, evening, at):
    """The fiddle's book has a page more for a song with a tune."""
    alone = SetOrder("Lamp night", player_ids=(1,), songs=(KeptSetSong(4, None, "G"),))
    save_set(book, evening.id, alone, 1)
    assert '<input type="checkbox" name="staff" value="1">' in client.get(at).text
    pages = []
    for form in ({}, {"staff": "1"}):
        printed = waited(client, client.post(f"{at}/print", data=form).url.path)
        (fiddle,) = re.findall(r'href="([^"]*/files/books/ines[^"]*)"', printed.text)
        pages.append(len(PdfReader(io.BytesIO(client.get(fiddle).content)).pages))
    assert pages[1] == pages[0] + 1


def test_what_print_leaves_out_is_told_where_a_set_is_printed(client, book, evening, at):
    """Each song and name once, whatever stands more often; the files are made all the same."""
    text = (DEMO / "black-buoy.chart.md").read_text(encoding="utf-8")
    kept = add_song(book, text.replace("title: Black Buoy", "title: שלום אבגדהז"))
    songs = (KeptSetSong(kept.id), KeptSetSong(2), KeptSetSong(kept.id))
    save_set(book, evening.id, SetOrder("Night 日", songs=songs), 1)
    page = client.post(f"{at}/print")
    told = words(page)
    assert "“ Night 日 ”: print has no 日 and puts “?” there." in told
    assert "“ שלום אבגדהז ”: print has no ש ל ו ם א ב ג ד … and puts “?” there." in told
    assert told.count("print has no") == 2
    assert "are made." in waited(client, page.url.path).text


def waited(client, address):
    """The page of a print once it is over."""
    for _ in range(600):
        page = client.get(address, headers=HTMX)
        if "every 500ms" not in page.text:
            return page
        threading.Event().wait(0.1)
    raise AssertionError(page.text)


def test_an_empty_set_is_not_printed(client, book, evening, at):
    """It says what to do first."""
    save_set(book, evening.id, SetOrder("Lamp night"), 1)
    page = client.post(f"{at}/print")
    assert page.status_code == 422
    assert "Put in a song, then print" in page.text


@pytest.mark.parametrize("rest", ["", "/all.zip", "/files/summary.md"])
def test_a_print_that_is_gone_is_told(client, at, rest):
    """With what to do."""
    page = client.get(f"{at}/print/9{rest}")
    assert page.status_code == 404
    assert "Print again" in page.text


def test_a_zip_of_the_same_files_is_the_same():
    """No clock and no system stands in it."""
    files = {"books/a.pdf": b"%PDF", "summary.md": b"# A" * 99}
    assert zipped(files, "a") == zipped(dict(files), "a")
    with zipfile.ZipFile(io.BytesIO(zipped(files, "a"))) as archive:
        assert [entry.date_time for entry in archive.infolist()] == [(1980, 1, 1, 0, 0, 0)] * 2


def test_a_set_goes_out_as_one_zip(client, at):
    """Every song in its key of the night, a file for each kind that was ticked."""
    answer = client.get(f"{at}/songs.zip", params={"kind": ["json", "musicxml"], "chords": "numbers"})
    assert answer.headers["content-type"] == "application/zip"
    with zipfile.ZipFile(io.BytesIO(answer.content)) as packed:
        names = packed.namelist()
        titles = {json.loads(packed.read(name))["title"] for name in names if name.endswith(".json")}
        assert any(b"<numeral>" in packed.read(name) for name in names if name.endswith(".musicxml"))
    assert (len(names), len(titles)) == (8, 3)  # one song is played twice
