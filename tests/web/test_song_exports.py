"""Songs and sets taken away for other programs."""

import pytest

from fifthwise.book import songs
from fifthwise.exchange.musicxml import read_musicxml
from fifthwise.stage import OUT_WAYS


@pytest.mark.parametrize("kind", list(OUT_WAYS))
def test_a_song_goes_out_in_every_kind(client, book, kind):
    """The file is named by the title and the key, and is of the kind that was asked for."""
    row = songs(book)[0]
    answer = client.get(f"/songs/{row.id}/export/{kind}", params={"key": "Ab"})
    assert answer.status_code == 200
    assert OUT_WAYS[kind].media_type in answer.headers["content-type"]
    assert OUT_WAYS[kind].ending in answer.headers["content-disposition"]
    assert answer.content


def test_the_key_and_the_player_go_along(client, book):
    """What a trumpet in B flat takes away in A flat is written in B flat, and sounds in A flat."""
    row = next(row for row in songs(book) if row.key.mode == "major")
    query = {"key": "Ab", "part": "trumpet in Bb"}
    answer = client.get(f"/songs/{row.id}/export/musicxml", params=query)
    assert b"<fifths>-2</fifths>" in answer.content
    assert read_musicxml(answer.content).sheet.bars[0].key.short == "Ab"


def test_a_kind_that_there_is_not_is_told(client, book):
    """The fault names the kinds."""
    answer = client.get(f"/songs/{songs(book)[0].id}/export/doc")
    assert answer.status_code == 422
    assert "musicxml" in answer.text
