"""What can be taken along of a song."""

import io
import re
from urllib.parse import unquote

import pypdf
import pytest

from fifthwise.book import add_singer, add_song, song
from fifthwise.voice import read_singer

LANTERN = 4
A4_POINTS, LETTER_POINTS = (595, 842), (612, 792)


def pages(answer):
    """A PDF's pages."""
    assert answer.headers["content-type"] == "application/pdf"
    return pypdf.PdfReader(io.BytesIO(answer.content)).pages


@pytest.mark.parametrize(("query", "size"), [("", A4_POINTS), ("&paper=letter", LETTER_POINTS)])
def test_print_is_what_was_seen(client, query, size):
    """The same key and the same letters, on the paper that was asked for."""
    (page,) = pages(client.get(f"/songs/{LANTERN}/song.pdf?key=Bb&show=letters{query}"))
    assert tuple(round(float(side)) for side in page.mediabox[2:]) == size
    assert "E♭" in page.extract_text()


def test_a_paper_that_we_have_not_got_is_told(client):
    """With those that there are."""
    answer = client.get(f"/songs/{LANTERN}/song.pdf?paper=a3")
    assert answer.status_code == 422
    assert "Write a4 or letter" in answer.text


def test_plain_text_is_in_the_key(client):
    """A file of text in the key of the address, for the singer of the address."""
    answer = client.get(f"/songs/{LANTERN}/song.txt?key=Bb")
    assert answer.headers["content-type"].startswith("text/plain")
    assert "Key B♭" in answer.text


def test_the_chart_text_is_what_is_kept(client, book):
    """Every byte of it, whatever the name in the address."""
    for name in ("song", "lantern-on-the-quay"):
        assert client.get(f"/songs/{LANTERN}/{name}.chart.md").text == song(book, LANTERN).text


def test_the_file_for_a_screen_is_closed(client):
    """It loads nothing, runs nothing, and its own policy says so."""
    answer = client.get(f"/songs/{LANTERN}/song.html?key=Bb")
    assert "script" not in answer.headers["content-security-policy"]
    assert answer.headers["content-security-policy"].startswith("default-src 'none'")
    assert re.findall(r'(?:src|href)="(?!#)', answer.text) == []
    assert "Lantern on the Quay, in B♭" in answer.text


def test_words_are_printed_where_there_are_any(client, book):
    """A song without words says so instead."""
    assert "Lantern on the Quay" in pages(client.get(f"/songs/{LANTERN}/words.pdf"))[0].extract_text()
    row = add_song(book, "---\ntitle: Bare\nkey: G\n---\n1 | 4\n")
    answer = client.get(f"/songs/{row.id}/words.pdf")
    assert answer.status_code == 422
    assert "the song has no words" in answer.text


def test_the_picture_is_the_singers_in_the_key(client, book):
    """Large, under a policy of its own; without a singer there is none."""
    add_singer(book, read_singer("Maren", usable="F3-D5", comfort="A3-Bb4"))
    answer = client.get(f"/songs/{LANTERN}/picture.svg?for=singer:1&key=A")
    assert answer.headers["content-type"] == "image/svg+xml"
    assert "A for Maren, as called" in answer.text
    assert client.get(f"/songs/{LANTERN}/picture.svg").status_code == 422


@pytest.mark.parametrize(
    "title", ['A "b"; c=\\d/../e', "שיר הנמל", "Ünï’s Lämp ♭", "<script>x</script>", "%0d%0aX: y"]
)
def test_a_files_name_is_safe_whatever_the_title(client, book, title):
    """One line, quotes and slashes gone, other scripts kept in the full name (RFC 6266; RFC 8187)."""
    row = add_song(book, f"---\ntitle: {title}\nkey: G\n---\n1 | 4\n")
    for file in ("song.txt", "song.html", "song.pdf", "song.chart.md"):
        told = client.get(f"/songs/{row.id}/{file}").headers["content-disposition"]
        plain, full = re.fullmatch(
            r'attachment; filename="([^"]*)"; filename\*=UTF-8\'\'(\S+)', told
        ).groups()
        assert plain.isascii()
        assert not set(plain + unquote(full)) & set('/\\"\r\n<>')
    assert "שיר" not in title or "שיר" in unquote(full)
