import io
import itertools

import pypdf
import pytest

from fifthwise.page import PagePart, PageView, book_pages, lay_out, pdf_pages, song_record
from fifthwise.theory import Interval
from tests.page.songs import lantern, long_song, song


def read(pdf):
    """A PDF's pages."""
    return pypdf.PdfReader(io.BytesIO(pdf)).pages


def words(pdf):
    """Everything that is written, in reading order, parted at blanks."""
    return " ".join(page.extract_text() for page in read(pdf)).split()


def in_order(wanted, found):
    """Whether all of ``wanted`` come in ``found``, in order."""
    rest = iter(found)
    return all(word in rest for word in wanted)


def crowded():
    """Bars of three and four chords with basses and alterations, and every mark."""
    return song(
        "|: 1maj7 6-7 2-7 57(b9) | 3-7 6-7/5 b6maj7/b7 57(b9 #11) :| x3\n"
        "1 / 5/7.push / | #4ø7.push16 / / 57sus.late | 5.stop 0 5.accent 0\n"
        '1.hold | - | 5+7 | NC "drums" | %\n'
        '|: b7o7 | 5(5) :| vamp "till cue"',
        key="Ab",
        tempo="72",
    )


def test_the_text_gives_the_chords_in_order_in_plain_form():
    """What is copied out of the page is the chart: each number in one piece, its letters after it."""
    found = words(pdf_pages([lay_out(lantern())]))
    start = found.index("Verse", found.index("Form") + 12)
    wanted = ["1/3", "E♭/G", "4", "A♭", "6–7", "Cm7", "5/7", "B♭/D", "4△7", "A♭△7", "5sus", "2–7", "Fm7"]
    assert in_order(wanted, found[start:])


def test_letters_alone_give_letters():
    """The written key of a horn."""
    view = PageView(show="letters", part=PagePart("Trumpet in B♭", Interval(2, -1)))
    assert in_order(["F", "B♭", "Dm", "C/E", "Dm7", "B♭△7"], words(pdf_pages([lay_out(lantern(), view)])))


VIEWS = [
    PageView(show=show, tune=tune, words=tune)
    for show, tune in itertools.product(("numbers", "letters", "both", "roman"), (False, True))
]


@pytest.mark.parametrize("standard", ["ua-1", "a-2u"])
def test_every_page_passes_the_strict_exports(standard):
    """Tagged for a reader's ears and fit for an archive: no sign without a glyph, in any view."""
    records = [song_record(chart, view) for chart in (lantern(), crowded(), long_song(40)) for view in VIEWS]
    assert pdf_pages(records, title="Every view", standard=standard).startswith(b"%PDF")


def test_the_same_song_gives_the_same_file():
    """To the byte, so that an unchanged page need not be printed again."""
    assert pdf_pages([lay_out(lantern())]) == pdf_pages([lay_out(lantern())])


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("bars", [4, 12, 32, 48, 60])
def test_a_song_of_sixty_bars_stands_on_one_page(bars, paper):
    """So that nobody turns a page on stage."""
    record = song_record(long_song(bars), PageView(paper=paper))
    assert len(read(pdf_pages([record], paper=paper))) == 1


def test_a_crowded_song_stands_on_one_page():
    """Crowded rows are parted rather than printed too small."""
    assert len(read(pdf_pages([song_record(crowded(), PageView())]))) == 1


def test_a_very_long_song_says_which_page_it_is():
    """Its head stands on each page, and every bar on one of them."""
    pages = read(pdf_pages([song_record(long_song(240), PageView())]))
    assert len(pages) > 1
    for number, page in enumerate(pages, start=1):
        text = page.extract_text()
        assert "A Song" in text
        assert f"page {number} of {len(pages)}" in text
    shown = " ".join(page.extract_text() for page in pages).split()
    assert shown.count("4△7") == 40


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("letter", (612, 792))])
def test_the_paper_is_the_one_asked_for(paper, size):
    """In points."""
    box = read(pdf_pages([lay_out(song("1"))], paper=paper))[0].mediabox
    assert (round(box.width), round(box.height)) == size


def test_every_song_is_bookmarked():
    """A book's outline lists its songs."""
    book = pdf_pages([lay_out(song("1", title=name)) for name in ("First", "Second", "Third")], title="A set")
    reader = pypdf.PdfReader(io.BytesIO(book))
    assert [mark.title for mark in reader.outline] == ["First", "Second", "Third"]
    assert reader.metadata.title == "A set"


def test_nothing_is_dated():
    """The file's day is fixed."""
    reader = pypdf.PdfReader(io.BytesIO(pdf_pages([lay_out(song("1"))])))
    assert reader.metadata.creation_date.year == 2026


def test_the_key_to_the_signs_is_printed():
    """In plain words, for a stranger."""
    text = " ".join(words(pdf_pages([lay_out(song("1.hold | 6-.stop"))])))
    assert "strike once and let ring" in text
    assert "minor chord" in text
    assert "diminished" not in text


def test_a_record_may_be_printed_by_itself():
    """What a set puts together with title pages and lyrics."""
    record = song_record(lantern(), PageView())
    assert record["kind"] == "chart"
    assert len(read(book_pages([record, record], paper="a4", title="Twice"))) == 2
