"""The box of anchors at the top of a string player's page."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from fifthwise.evening import part_names, part_of
from fifthwise.page import PagePart, PageView, html_page, lay_out, pdf_pages, song_record, text_page
from fifthwise.strings import instrument_of
from tests.page.songs import lantern, song

VIOLA = PagePart("Viola", fingerboard="viola")


def boxes(chart, part):
    """The boxes of a chart's page, key by key."""
    return [line.anchors for line in lay_out(chart, PageView(part=part)).strip]


def ways(box):
    """Each number with the words that lead there."""
    return [(mark.number.text, mark.words) for mark in box.marks]


def test_the_way_is_told_on_the_player_s_own_instrument():
    """In C on a viola 4, 1 and 5 lie under the third finger; the 6 lies a whole step above the 5.

    Common practice, no source: the same finger has the 5 on the next string up, the 4 on the next down.
    """
    assert ways(boxes(song("1 | 4 | 5 | 6-"), VIOLA)[0]) == [
        ("1", "G string, third finger"),
        ("5", "same finger, D string"),
        ("4", "same finger, C string"),
        ("6", "whole step above the 5, fourth finger"),
    ]


def test_each_key_of_a_song_has_its_box():
    """A last chorus a step up has its own way, and its marks lie elsewhere."""
    first, second = boxes(lantern(), VIOLA)
    assert [mark.along for mark in first.marks] != [mark.along for mark in second.marks]


def test_a_page_without_a_fingerboard_has_no_box():
    """A trumpet's page, and everyone's, have the strip alone."""
    assert boxes(lantern(), PagePart("Trumpet in B♭")) == [None, None]
    assert boxes(lantern(), PagePart()) == [None, None]


@pytest.mark.parametrize("name", [name for name in part_names() if part_of(name).bowed])
def test_every_bowed_part_has_a_fingerboard(name):
    """The strings of each bowed part are known, and its page tells the way in every key."""
    part = PagePart(fingerboard=part_of(name).fingerboard)
    count = len(instrument_of(part.fingerboard).strings)
    for key in ("Cb", "C#", "G#m", "Bbm", "F"):
        (box,) = boxes(song("1", key=key), part)
        assert len(box.strings) == count
        assert len(box.marks) == 4
        assert all(0 <= mark.along < box.ends for mark in box.marks)


def test_print_screen_and_text_tell_the_way():
    """The same words stand in all three; the signs of the board are explained in print alone."""
    chart, view = song("1 | 4 | 5 | 6-"), PageView(part=VIOLA)
    printed = PdfReader(BytesIO(pdf_pages([song_record(chart, view)]))).pages[0].extract_text()
    assert "whole step above the 5, fourth finger" in printed
    assert "the same finger" in printed
    assert "whole step above the 5, fourth finger" in text_page(lay_out(chart, view))
    screen = html_page(lay_out(chart, view, columns=4), lay_out(chart, view, columns=2))
    assert "whole step above the 5, fourth finger" in screen
    assert "the same finger" not in screen


def test_the_board_gives_way_to_a_song_that_needs_the_room():
    """A song that would lose its four bars a row keeps them, and each place stands under its chord."""
    rows = "\n".join(["1 | 4 | 5 | 6-"] * 6)
    chart = song("\n\n".join(f"# part {name}\n{rows}" for name in "abc"))
    pages = PdfReader(BytesIO(pdf_pages([song_record(chart, PageView(part=VIOLA))]))).pages
    assert len(pages) == 1
    words = pages[0].extract_text()
    assert "G, third finger" in words
    assert "same finger, D string" not in words
    assert "the same finger" not in words
