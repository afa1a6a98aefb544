"""Names of files in headers."""

from urllib.parse import unquote

import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.responses import PlainTextResponse

from fifthwise.web.guard import attachment
from tests.web.guard.asking import ask

ANY_TEXT = st.text(st.characters(exclude_categories=()))


@given(ANY_TEXT)
def test_no_name_leaves_its_place(name):
    """Whatever a title holds, the header stays one line, one name, and no folder."""
    header = attachment(name)
    assert header.isascii()
    assert header.isprintable()
    assert header.count('"') == 2
    full = unquote(header.partition("filename*=UTF-8''")[2], errors="strict")
    assert not set(full) & set('/\\":*?<>|\r\n\0')
    assert not full.startswith(".")
    assert full


@pytest.mark.parametrize(
    ("name", "header"),
    [
        ("Black Buoy.pdf", "attachment; filename=\"Black Buoy.pdf\"; filename*=UTF-8''Black%20Buoy.pdf"),
        ("Füße.pdf", "attachment; filename=\"F--e.pdf\"; filename*=UTF-8''F%C3%BC%C3%9Fe.pdf"),
        (
            'a"\r\nSet-Cookie: b=c.pdf',
            "attachment; filename=\"a-Set-Cookie- b=c.pdf\"; filename*=UTF-8''a-Set-Cookie-%20b%3Dc.pdf",
        ),
        ("../../etc/passwd", "attachment; filename=\"-..-etc-passwd\"; filename*=UTF-8''-..-etc-passwd"),
        ("", "attachment; filename=\"file\"; filename*=UTF-8''file"),
    ],
)
def test_names_are_told_twice(name, header):
    """Once for old readers, once in full.

    Source: RFC 6266, appendix D; RFC 8187, 3.2.
    """
    assert attachment(name) == header


def test_a_title_adds_no_header():
    """An answer under an evil title has just the headers that it should."""
    evil = 'a"\r\nSet-Cookie: b=c\r\n\r\n.pdf'
    answer = ask(PlainTextResponse("", headers={"content-disposition": attachment(evil)}))
    assert set(answer.headers) == {"content-disposition", "content-length", "content-type"}
