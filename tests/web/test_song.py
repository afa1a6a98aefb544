"""The page *Song*."""

import pytest


@pytest.mark.parametrize("key", ["", "Bb", "F%23", "Cb"])
def test_a_song_is_shown_in_the_key_of_its_address(client, key):
    """The page says the key, the whole page and the fragment alike."""
    page = client.get(f"/songs/3?key={key}")
    assert page.status_code == 200
    fragment = client.get(f"/songs/3?key={key}", headers={"HX-Request": "true"})
    assert "<html" in page.text
    assert "<html" not in fragment.text
    assert fragment.text.strip() in page.text


def test_a_key_that_is_none_is_a_fault(client):
    """It says what, where and how to mend it."""
    answer = client.get("/songs/1?key=H")
    assert answer.status_code == 422
    assert "is no key" in answer.text


def test_a_song_that_is_not_there_is_told(client):
    """With the way back."""
    answer = client.get("/songs/999")
    assert answer.status_code == 404
    assert "there is no song 999" in answer.text
