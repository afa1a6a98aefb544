"""What players do on the pages *Start*, *Songs* and *Import*."""

import re
import shutil

import pytest
from playwright.sync_api import expect

from fifthwise.book import add_song, open_book
from tests.web.browser.checks import bad_frame, barriers, faint, lost_keys, small_targets, too_wide
from tests.web.browser.screens import DESKTOP, PHONE, TABLET
from tests.web.browser.serving import served

LETTERS = "Paper Boat\nKey: G\n\n[Verse]\n| G | C D | Em7 | D/F# |\n"
TWO_CHORDS = "Net Loft\n\n[Verse]\nC        F\nUp in the loft\nC       F\nthe nets hang dry\n"
SONG = "---\ntitle: Song {:03}\nkey: C\n---\n# verse\n1 | 4 | 5 | 1\n"
DROP = """([place, name, text]) => {
  const dropped = new DataTransfer();
  dropped.items.add(new File([text], name, {type: "text/plain"}));
  document.querySelector(place).dispatchEvent(
    new DragEvent("drop", {dataTransfer: dropped, bubbles: true, cancelable: true}));
}"""


@pytest.fixture
def field(page):
    """The field of the songs."""
    return page.get_by_role("searchbox", name="Find")


@pytest.fixture
def titles(page):
    """The titles in the list."""
    return page.get_by_role("rowheader")


@pytest.fixture
def only():
    """How many made-up songs the book has in the demo's place; ``None`` leaves the demo."""
    return None


@pytest.fixture
def address(only, filled_book, tmp_path):
    """A workbench of the test's own."""
    file = tmp_path / "book.sqlite"
    if only is None:
        shutil.copy(filled_book, file)
    else:
        with open_book(file) as book:
            for number in range(only):
                add_song(book, SONG.format(number))
    with served(file) as served_at:
        yield served_at


@pytest.mark.parametrize("viewport", [PHONE, DESKTOP], ids=lambda size: str(size[0]))
def test_the_list_follows_what_is_typed(page, field, titles):
    """Typing changes the list and the address, keeps the focus, and a reload shows the same."""
    page.goto("/songs")
    expect(titles).to_have_count(11)
    field.click()
    page.keyboard.type("6- 4")
    expect(page.get_by_role("status").first).to_contain_text("with 6– then 4 in any key")
    expect(field).to_be_focused()
    expect(page).to_have_url(re.compile(r"/songs\?find=6-\+4$"))
    found = titles.all_inner_texts()
    assert 0 < len(found) < 11
    assert page.locator("mark").count()
    page.reload()
    assert titles.all_inner_texts() == found
    expect(field).to_have_value("6- 4")
    page.get_by_role("link", name="Clear").click()
    expect(titles).to_have_count(11)


def test_a_fault_stands_under_the_field_and_the_list_stays(page, field, titles):
    """What cannot be looked for is told while the last list is kept; typing on takes it away."""
    page.goto("/songs")
    field.press_sequentially("6- 4")
    expect(page).to_have_url(re.compile("find="))
    found = titles.all_inner_texts()
    field.press_sequentially(" b")
    expect(page.get_by_role("alert")).to_contain_text("'b' is no chord")
    assert titles.all_inner_texts() == found
    field.press_sequentially("7")
    expect(page.get_by_role("alert")).to_be_empty()
    expect(page.get_by_role("status").first).to_contain_text("♭7")


def test_filters_and_order_change_the_list_at_once(page, titles):
    """A filter that is chosen and an order stand in the address."""
    page.goto("/songs")
    page.get_by_text("Filters").click()
    page.get_by_label("Tempo from").fill("100")
    page.get_by_role("radio", name="Tempo").check(force=True)
    expect(page).to_have_url(re.compile(r"low=100&order=tempo$"))
    expect(page.get_by_role("status").first).to_contain_text("tempo from 100")
    assert 0 < titles.count() < 11


def test_a_song_is_found_and_opened_by_the_keyboard(page, field):
    """A stroke leads to the field from anywhere; Enter on a title opens the song."""
    page.goto("/songs")
    page.keyboard.press("/")
    expect(field).to_be_focused()
    expect(field).to_have_value("")
    page.keyboard.type("northerly")
    expect(page.get_by_role("rowheader")).to_have_count(1)
    page.get_by_role("link", name="Northerly").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Northerly")


@pytest.mark.parametrize("only", [120])
def test_more_songs_come_under_the_list(page, titles):
    """Each press adds fifty, and the first new one is next for the keyboard."""
    page.goto("/songs")
    more = page.get_by_role("link", name="More songs")
    for shown in (50, 100):
        expect(titles).to_have_count(shown)
        more.click()
        expect(titles).to_have_count(min(120, shown + 50))
        expect(page.get_by_role("link", name=f"Song {shown:03}")).to_be_focused()
    expect(more).to_have_count(0)
    assert page.url.endswith("/songs")


def test_dropped_files_become_songs(page):
    """A file that is dropped is taken in at once; its song is one press away."""
    page.goto("/songs/import")
    page.evaluate(DROP, ["[data-drop]", "paper.txt", LETTERS])
    expect(page.get_by_role("status")).to_have_text("1 kept.")
    page.get_by_role("link", name="Paper Boat").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Paper Boat")


def test_a_file_dropped_on_the_list_waits_until_it_is_settled(page):
    """Anywhere on the page will do; the key that two chords leave open is chosen, seen and kept."""
    page.goto("/songs")
    page.evaluate(DROP, ["#found", "loft.txt", TWO_CHORDS])
    expect(page.get_by_role("status")).to_have_text("0 kept, 1 to settle.")
    page.get_by_role("link", name="Net Loft").click()
    wrong = [*too_wide(page), *bad_frame(page, "Settle"), *small_targets(page), *barriers(page), *faint(page)]
    assert wrong == []
    page.get_by_role("radio", name=re.compile("^F ")).check()
    expect(page.locator("#seen")).to_contain_text("Net Loft, F")
    page.get_by_role("button", name="Save to the book").click()
    expect(page.get_by_role("status")).to_have_text("1 kept.")
    page.get_by_role("link", name="Net Loft").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Net Loft")


def test_many_files_are_counted_until_they_are_done(page):
    """The browser looks on by itself."""
    page.goto("/songs/import")
    files = [
        {
            "name": f"{n}.txt",
            "mimeType": "text/plain",
            "buffer": LETTERS.replace("Paper", f"Paper {n}").encode(),
        }
        for n in range(60)
    ]
    page.get_by_label("Drop files here").set_input_files(files)
    expect(page.get_by_role("status")).to_have_text("60 kept.", timeout=30_000)


@pytest.mark.parametrize("viewport", [PHONE, DESKTOP], ids=lambda size: str(size[0]))
def test_pasted_letters_become_numbers_and_a_song(page):
    """Numbers stand beside the letters as they come; a fault goes once mended; saving opens the song."""
    page.goto("/songs/import")
    text = page.get_by_label("Or paste a text")
    seen = page.get_by_role("region", name="As numbers")
    text.fill(LETTERS.replace("Key: G\n", "").replace("Em7", "H"))
    expect(seen).to_contain_text("'H' is no chord")
    text.fill(LETTERS.replace("Key: G\n", ""))
    expect(seen).to_contain_text("Which key is it in?")
    page.get_by_label("Key", exact=True).fill("G")
    expect(seen).not_to_contain_text("Which key is it in?")
    expect(seen.locator(".chart").first).to_contain_text("6")
    assert too_wide(page) == []
    page.get_by_role("button", name="Save to the book").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Paper Boat")


@pytest.mark.parametrize("only", [0])
@pytest.mark.parametrize("viewport", [PHONE, TABLET, DESKTOP], ids=lambda size: str(size[0]))
def test_an_empty_book_is_started(page):
    """The start and the empty list stand as every page does; one press puts the demo evening in."""
    for path, names in (("/", "Start"), ("/songs", "Songs")):
        page.goto(path)
        wrong = [*too_wide(page), *bad_frame(page, names), *small_targets(page), *barriers(page)]
        wrong += [*faint(page), *lost_keys(page)]
        assert not wrong, "\n".join(wrong)
    page.get_by_role("link", name="To the start").click()
    page.get_by_role("button", name="Put the demo evening in").click()
    expect(page).to_have_url(re.compile(r"/sets/1$"))
