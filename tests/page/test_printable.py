"""Print says what it cannot show, and never fails on it."""

import io

import pytest
from pypdf import PdfReader

from fifthwise.page import book_pages, unprintable
from fifthwise.page.printable import STAND_IN, printable


def test_our_scripts_and_signs_can_be_printed():
    """Western letters, accents composed or not, quotes and music signs."""
    assert unprintable("Küste, cafe\u0301, “Søren” – 6– ♭7 ♯4 △ ø ½") == ""


def test_other_scripts_are_named_once():
    """Hebrew and an emoji, each character once."""
    assert unprintable("שלום שלום 🎻") == "שלום🎻"


@pytest.mark.parametrize(
    "title", ["שלום", "🎻 Waltz", "a\u0301\u0323\u200d", "\x01\x7f", '<b>#*_$`@~\\"</b>', "[[[", "日本"]
)
def test_any_title_prints(title):
    """A stand-in takes the place of what is missing; markup is text."""
    record = {"kind": "title", "name": title, "date": "", "singers": [], "songs": []}
    pdf = book_pages([record], paper="a4", title=title)
    text = PdfReader(io.BytesIO(pdf)).pages[0].extract_text()
    assert STAND_IN in text or title.replace("\\", "") in text.replace("\\", "")


def test_what_can_be_printed_stays_as_it_is():
    """Nothing but the missing characters changes."""
    assert printable("Küste שם 6–") == "Küste ?? 6–"
