"""A conflict: both texts, a choice for each place, nothing lost."""

import re
from html import unescape

import pytest

from fifthwise.book import song, versions

BASE = "---\ntitle: Try\nkey: C\ntempo: 100\n---\n# verse\n1 | 4\n5 | 1\n# chorus\n4 | 5\n"
MINE = BASE.replace("1 | 4", "1 | 6-").replace("tempo: 100", "tempo: 90")
THEIRS = BASE.replace("4 | 5\n", "4 | 5 | 1\n").replace("tempo: 100", "tempo: 110")


@pytest.fixture
def conflict(client):
    """The answer to a save over a version that somebody else has changed."""
    client.post("/songs/1/edit", data={"text": BASE, "version": "1"})
    client.post("/songs/1/edit", data={"text": THEIRS, "version": "2"})
    return client.post("/songs/1/edit", data={"text": MINE, "version": "2", "draft": "abc1"})


def form_in(html):
    """What the conflict's form would send as it stands."""
    hidden = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', html))
    chosen = dict(re.findall(r'name="(piece-\d+)" value="(\w+)" checked', html))
    return {name: unescape(value) for name, value in (hidden | chosen).items()}


def test_a_conflict_shows_both_texts(conflict, book):
    """Each place where they differ is told with who changed it; nothing is saved yet."""
    assert conflict.status_code == 409
    assert "tempo: 90" in conflict.text
    assert "tempo: 110" in conflict.text
    assert conflict.text.count("<fieldset") == 3
    assert conflict.text.count("<b>changed by both</b>") == 1
    assert song(book, 1).row.version == 3


@pytest.mark.parametrize(("take", "text"), [("mine", MINE), ("theirs", THEIRS)])
def test_one_side_throughout_is_that_side(client, conflict, book, take, text):
    """All mine is my text, all theirs is their text."""
    form = form_in(conflict.text)
    form |= {name: take for name in form if name.startswith("piece-")}
    answer = client.post("/songs/1/merge", data={**form, "do": "save"}, follow_redirects=False)
    assert answer.status_code == 303
    assert answer.headers["set-cookie"].startswith("saved-abc1=1;")
    assert song(book, 1).text == text
    assert [each.text for each in versions(book, 1)][1:] == list(dict.fromkeys([BASE, THEIRS, text]))


def test_what_only_one_side_changed_is_chosen_at_first(client, conflict, book):
    """The changes of both are there; where both changed, mine is."""
    client.post("/songs/1/merge", data=form_in(conflict.text) | {"do": "save"})
    assert song(book, 1).text == THEIRS.replace("1 | 4", "1 | 6-").replace("tempo: 110", "tempo: 90")


def test_what_is_chosen_can_be_written_on(client, conflict, book):
    """It comes in the text field over their version, and nothing is saved."""
    form = form_in(conflict.text) | {"piece-1": "both", "do": "edit"}
    page = client.post("/songs/1/merge", data=form)
    assert page.status_code == 200
    assert "tempo: 90\ntempo: 110\n" in page.text
    assert 'name="version" value="3"' in page.text
    assert song(book, 1).row.version == 3


def test_what_is_chosen_may_have_faults(client, conflict):
    """Then it is not saved, and stands in the text field with its faults."""
    form = form_in(conflict.text) | {"piece-1": "both", "do": "save"}
    answer = client.post("/songs/1/merge", data=form)
    assert answer.status_code == 422
    assert "is given twice" in answer.text
    assert "tempo: 90\ntempo: 110\n" in answer.text


def test_a_conflict_may_follow_a_conflict(client, conflict, book):
    """Who saves in between is seen too."""
    client.post("/songs/1/edit", data={"text": THEIRS.replace("Try", "Tried"), "version": "3"})
    again = client.post("/songs/1/merge", data=form_in(conflict.text) | {"do": "save"})
    assert again.status_code == 409
    assert "Tried" in again.text
    client.post("/songs/1/merge", data=form_in(again.text) | {"do": "save"})
    assert "title: Tried" in song(book, 1).text
    assert "1 | 6-" in song(book, 1).text


@pytest.mark.parametrize("theirs", ["", "999", "-1", "x"])
def test_a_form_that_names_no_version_asks_again(client, conflict, theirs):
    """Nothing is saved, nothing is lost."""
    answer = client.post("/songs/1/merge", data=form_in(conflict.text) | {"theirs": theirs, "do": "save"})
    assert answer.status_code == 409
    assert "tempo: 90" in answer.text


@pytest.mark.parametrize("version", ["", "0", "77", "x"])
def test_a_save_without_a_version_is_a_conflict(client, version):
    """Nothing is overwritten unseen."""
    assert client.post("/songs/1/edit", data={"text": MINE, "version": version}).status_code == 409
