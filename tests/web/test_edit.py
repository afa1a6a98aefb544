"""The page *Edit*: text in, page and faults out, nothing lost on the way."""

import re
from html import unescape

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from fifthwise.book import song, songs, versions
from fifthwise.chart import LARGEST_TEXT
from fifthwise.web.edit_text import mended, new_text
from fifthwise.web.live_page import live_page

HEAD = "---\ntitle: Try\nkey: C\n---\n"
SOUND = HEAD + "1 | 4 | 5 | 1\n"
HTMX = {"HX-Request": "true"}


def text_of(html):
    """What a browser would put into the text field."""
    return unescape(re.search(r"<textarea[^>]*>\n(.*?)</textarea>", html, re.DOTALL)[1])


def test_a_song_is_edited_and_saved(client, book):
    """The newest text is in the field; saving it makes the next version and leads to the song."""
    page = client.get("/songs/3/edit")
    assert page.status_code == 200
    assert text_of(page.text) == song(book, 3).text
    new = song(book, 3).text.replace("tempo: 112", "tempo: 99")
    answer = client.post("/songs/3/edit", data={"text": new, "version": "1"}, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/songs/3")
    assert song(book, 3).text == new
    assert song(book, 3).row.version == 2


def test_a_new_song_begins_with_its_title(client, book):
    """The title is asked, a sound text begins with it, and saving adds the song."""
    assert 'name="title"' in client.get("/songs/new").text
    text = text_of(client.get("/songs/new", params={"title": "A <b>new</b>\n one", "key": "Eb"}).text)
    assert "title: A <b>new</b> one\nkey: Eb\n" in text
    assert live_page(text).marks == ()
    before = len(songs(book))
    answer = client.post("/songs/new", data={"text": text, "version": "0"}, follow_redirects=False)
    assert answer.status_code == 303
    assert song(book, before + 1).text == text


@pytest.mark.parametrize("address", ["/songs/3/edit", "/songs/new"])
def test_a_text_with_faults_is_not_saved_and_not_lost(client, book, address):
    """The answer is 422 with the text in the field and the fault at its place with its mends."""
    faulty = HEAD + "1 | 15\n"
    answer = client.post(address, data={"text": faulty, "version": "1"})
    assert answer.status_code == 422
    assert text_of(answer.text) == faulty
    assert 'data-marks="5:5:2"' in answer.text
    assert 'data-mend="1 5"' in answer.text
    assert "Not saved: 1 fault, line 5." in answer.text
    assert len(versions(book, 3)) == 1


@pytest.mark.parametrize("address", ["/songs/3/page", "/songs/new/page"])
def test_the_live_page_draws_what_can_be_read(client, address):
    """A script gets the page alone, with a question mark where a bar could not be read and the rest drawn."""
    answer = client.post(address, data={"text": HEAD + "1 | 15 | 4\n"}, headers=HTMX)
    assert answer.status_code == 200
    assert "<html" not in answer.text
    assert 'class="unread"' in answer.text
    assert "<textarea" not in answer.text
    whole = client.post(address, data={"text": HEAD + "1 | 15 | 4\n"})
    assert "<html" in whole.text
    assert answer.text.strip() in whole.text.replace(' id="see-page" checked', "")


def test_without_a_script_a_mend_is_put_in(client):
    """Its button sends the text, and the answer has it with the mend."""
    page = client.post("/songs/new/page", data={"text": HEAD + "1 | 15\n"})
    button = unescape(re.search(r'name="mend" value="([^"]*)"', page.text)[1])
    assert button == "5 5 2 1 5"
    after = client.post("/songs/new/page", data={"text": HEAD + "1 | 15\n", "mend": button})
    assert text_of(after.text) == HEAD + "1 | 1 5\n"
    assert "No faults." in after.text
    again = {"text": HEAD + "1 | 1 5\n", "mend": button}
    assert "No faults." in client.post("/songs/new/page", data=again, headers=HTMX).text


@given(st.text(max_size=30), st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\n")))
@example("no mend", "")
@example("1 1 1 x", "\U0001f3bb")
@settings(suppress_health_check=[HealthCheck.too_slow])
def test_a_mend_changes_its_place_alone(mend, line):
    """A mend in the first line leaves the second, and one that points nowhere leaves all."""
    text = f"{line}\n1 | 4"
    assert mended(text, mend).endswith("\n1 | 4")
    assert mended(text, "9 1 1 x") == mended(text, "1 999 1 x") == mended(text, "1 1 0 x") == text


def test_marks_count_as_browsers_do():
    """A sign beyond the first plane takes two places before the fault."""
    page = live_page(HEAD + '"\U0001f3bb" 1 | 15\n')
    assert page.places == "5:10:2"
    assert mended(HEAD + '"\U0001f3bb" 1 | 15\n', page.marks[0].mends[0].place).endswith("1 | 1 5\n")


@pytest.mark.parametrize(("key", "drawn"), [("", "C"), ("D", "D"), ("H", "C"), ("A minor", "C")])
def test_the_live_page_takes_a_key(key, drawn):
    """A key of the song is shown; anything else leaves the written one."""
    page = live_page(SOUND, key)
    assert str(page.chart.key) == str(live_page(SOUND.replace("key: C", f"key: {drawn}")).chart.key)
    assert [place.current for place in page.keys].count(True) == 1
    assert [place.written for place in page.keys].count(True) == 1


@pytest.mark.parametrize(
    "text",
    [
        "",
        "\n",
        "\n\n" + SOUND,
        "no chart at all",
        HEAD,
        SOUND + "\0",
        HEAD + "1 | " * 450,
        HEAD.replace("Try", "</textarea><script>alert(1)</script>") + "15\n",
        HEAD.replace("Try", "\u202eיחס \U0001f3bb") + "1 | <img src=x onerror=alert(1)>\n",
        HEAD + '1 | </pre>"&amp;"\n',
        HEAD.replace("---\n", "form: nowhere x99999\n---\n", 1) + "1\n",
        "15\n" * 2000,
    ],
)
@pytest.mark.parametrize("address", ["/songs/new", "/songs/new/page", "/songs/3/edit", "/songs/3/page"])
def test_odd_texts_are_kept_and_escaped(client, text, address):
    """Whatever is typed comes back as it was, never as a part of the page."""
    answer = client.post(address, data={"text": text, "version": "1"})
    assert answer.status_code in (200, 422)
    if "<textarea" in answer.text:
        assert text_of(answer.text) == text
    assert "<script>alert" not in answer.text
    assert "<img" not in answer.text


def test_a_text_beyond_the_bound_is_told(client):
    """Its size and the bound are said, and it is still in the field."""
    text = SOUND + "<!--" + "x" * LARGEST_TEXT + "-->"
    answer = client.post("/songs/3/edit", data={"text": text, "version": "1"})
    assert answer.status_code == 422
    assert "1.0 MB" in answer.text
    assert text_of(answer.text) == text


def test_a_text_that_is_too_long_to_draw_is_told_quickly():
    """Neither many bars nor many characters hold the writer up; known faults are told all the same."""
    for text in (SOUND + "1 | 4 | 5 | 1\n" * 120, SOUND + "words: la\n" * 4000):
        page = live_page(text)
        assert page.too_long
        assert page.drawn == ""
    known = live_page("15\n").marks[0].fault
    assert live_page("15\n" * 20_000, known=(known,)).places == "1:1:2"


def test_bytes_that_are_no_text_are_a_fault_or_replaced(client):
    """Half of a pair of surrogates in a form never reaches the book as such."""
    body = f"version=1&text={HEAD}1 | %ED%A0%80\n".encode()
    headers = {"content-type": "application/x-www-form-urlencoded"}
    answer = client.post("/songs/3/edit", content=body, headers=headers)
    assert answer.status_code == 422
    assert "\ufffd" in text_of(answer.text)


@pytest.mark.parametrize("end", ["\r\n", "\r", "\n"])
def test_line_ends_are_kept_as_one_kind(client, book, end):
    """A browser sends CRLF; the book gets a line feed, so a save without a change changes nothing."""
    client.post("/songs/3/edit", data={"text": SOUND.replace("\n", end), "version": "1"})
    assert song(book, 3).text == SOUND


def test_a_save_to_a_song_that_is_gone_keeps_the_text(client):
    """The fault is told over the text."""
    answer = client.post("/songs/999/edit", data={"text": SOUND, "version": "1"})
    assert answer.status_code == 404
    assert "there is no song 999" in answer.text
    assert text_of(answer.text) == SOUND


def test_the_browser_is_told_which_draft_is_saved(client):
    """A cookie names the draft after a save alone, and no name that a script could not have made."""
    faulty = client.post("/songs/3/edit", data={"text": "", "version": "1", "draft": "abc1"})
    assert 'name="draft" value="abc1"' in faulty.text
    assert "set-cookie" not in faulty.headers
    data = {"text": SOUND, "version": "1", "draft": "abc1"}
    answer = client.post("/songs/3/edit", data=data, follow_redirects=False)
    assert answer.headers["set-cookie"].startswith("saved-abc1=1;")
    data |= {"version": "2", "draft": "a=b; x"}
    assert "set-cookie" not in client.post("/songs/3/edit", data=data, follow_redirects=False).headers


def test_a_new_text_is_sound_in_any_title():
    """Line ends in a title do not break its head."""
    assert live_page(new_text("a\nkey: H\x00", "Eb")).marks == ()


@pytest.mark.parametrize(("key", "bars"), [("Eb", "1 | 4 | 5 | 1"), ("Am", "6- | 2- | 3- | 6-")])
def test_a_new_text_begins_round_the_home_of_its_key(key, bars):
    """A minor key's home is the 6-."""
    assert f"\n{bars}\n" in new_text("Seven Cups", key)
    assert live_page(new_text("Seven Cups", key)).marks == ()
