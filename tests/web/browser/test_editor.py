"""The page *Edit* in a browser: the text field, its marks and mends, and what is kept of it."""

import re
import time

import pytest
from playwright.sync_api import expect

PHONE = (390, 844)
HEAD = "---\ntitle: Try\nkey: C\n---\n"
NO_STORAGE = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError') }"


@pytest.fixture
def editor(page):
    """A song's text in its field."""
    page.goto("/songs/3/edit")
    expect(page.locator(".overlay .line").first).to_be_visible()
    return page.locator("#text")


def faults(page):
    """What is told of the faults."""
    return page.get_by_role("region", name="Faults")


def test_a_fault_is_marked_where_it_stands(page, editor):
    """The line's number and the token are marked, the page has a question mark, and the fault leads there."""
    editor.fill(HEAD + "1 | 4\n5 | 15\n")
    wrong = page.locator(".overlay .wrong")
    expect(wrong).to_have_count(1)
    expect(wrong).to_have_attribute("data-text", "15")
    expect(page.locator(".overlay .at-fault")).to_have_count(1)
    expect(page.locator(".overlay .line").nth(5)).to_have_class(re.compile("at-fault"))
    expect(page.locator(".wide .unread")).to_have_count(1)
    expect(page.locator("#count")).to_have_text("1 fault, line 6.")
    expect(editor).to_have_attribute("aria-invalid", "true")
    faults(page).get_by_role("link").click()
    selected = "field => field.value.slice(field.selectionStart, field.selectionEnd)"
    assert editor.evaluate(selected) == "15"


def test_marks_lie_under_their_tokens(page, editor):
    """The layer's lines have the field's wrapping: the two are equally high, whatever is in them."""
    editor.fill(HEAD + "words: " + "la la \U0001f3bb " * 60 + "\n\n\n" + "x" * 400 + "\n15\n")
    expect(page.locator(".overlay .wrong").last).to_be_visible()
    needed = editor.evaluate(
        "field => { field.style.height = '0'; field.style.minHeight = '0'; return field.scrollHeight }"
    )
    assert page.locator(".overlay").evaluate("layer => layer.offsetHeight") == needed


def test_a_mend_is_put_in_and_can_be_undone(page, editor):
    """It takes the place of the token, the fault goes, and undo brings the token back."""
    editor.fill(HEAD + "\U0001f3bb".join(['"', '" 1 | 15\n']))
    faults(page).get_by_role("button", name="1 5").click()
    expect(editor).to_have_value(HEAD + '"\U0001f3bb" 1 | 1 5\n')
    expect(editor).to_be_focused()
    expect(page.locator("#count")).to_have_text("No faults.")
    page.keyboard.press("ControlOrMeta+z")
    expect(editor).to_have_value(HEAD + '"\U0001f3bb" 1 | 15\n')


def test_typing_keeps_the_marks_of_other_lines(page, editor):
    """A line above a fault that is new moves the mark with its line, before the server has answered."""
    editor.fill(HEAD + "1 | 15\n")
    expect(page.locator(".overlay .wrong")).to_have_count(1)
    page.context.set_offline(True)
    editor.evaluate("field => field.setSelectionRange(0, 0)")
    editor.press("Enter")
    expect(page.locator(".overlay .line").nth(5)).to_have_class(re.compile("at-fault"))
    expect(page.locator(".overlay .wrong")).to_have_attribute("data-text", "15")
    page.context.set_offline(False)


def test_the_keyboard_saves_and_leaves(page, editor):
    """Tab leaves the field and types nothing; Ctrl+S saves."""
    before = editor.input_value()
    editor.focus()
    page.keyboard.press("Tab")
    expect(editor).not_to_be_focused()
    expect(editor).to_have_value(before)
    editor.fill(before.replace("tempo: 112", "tempo: 99"))
    page.keyboard.press("ControlOrMeta+s")
    expect(page).to_have_url(re.compile(r"/songs/3$"))
    page.goto("/songs/3/edit")
    expect(editor).to_have_value(before.replace("tempo: 112", "tempo: 99"))


def test_unsaved_work_survives_a_closed_tab(page, editor, context):
    """It is offered on return, and taken as it was."""
    text = HEAD + "1 | 4 | 1\n"
    editor.fill(text)
    page.close()
    again = context.new_page()
    again.goto("/songs/3/edit")
    expect(again.get_by_text("Your unsaved text from")).to_be_visible()
    again.get_by_role("button", name="take it").click()
    expect(again.locator("#text")).to_have_value(text)
    expect(again.get_by_text("Your unsaved text from")).to_have_count(0)


def test_a_draft_that_is_dropped_or_saved_is_not_offered_again(page, editor):
    """Neither of them comes back; what was saved is in the book."""
    editor.fill(HEAD + "1 | 4 | 1\n")
    page.goto("/songs/3/edit")
    page.get_by_role("button", name="drop it").click()
    page.goto("/songs/3/edit")
    expect(page.locator(".overlay .line").first).to_be_visible()
    expect(page.get_by_text("Your unsaved text from")).to_have_count(0)
    editor.fill(HEAD + "1 | 5 | 1\n")
    expect(page.locator("#count")).to_have_text("No faults.")
    page.get_by_role("button", name="Save").click()
    expect(page).to_have_url(re.compile(r"/songs/3$"))
    page.goto("/songs/3/edit")
    expect(editor).to_have_value(HEAD + "1 | 5 | 1\n")
    expect(page.get_by_text("Your unsaved text from")).to_have_count(0)
    assert page.evaluate("localStorage.length") == 0
    assert "saved-" not in page.evaluate("document.cookie")


def test_a_text_with_faults_is_held_and_kept(page, editor):
    """Save says what is in the way, the text and its undo stay, and the draft is kept."""
    editor.fill(HEAD + "1 | 15\n")
    expect(page.locator("#count")).to_have_text("1 fault, line 5.")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("alert")).to_contain_text("Not saved yet")
    assert page.url.endswith("/edit")
    assert page.evaluate("localStorage.length") == 1


def test_leaving_is_asked_only_where_nothing_can_be_kept(page, context):
    """With storage the tab closes unasked; without it the browser asks."""
    asked = []
    page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.accept()))
    page.goto("/songs/3/edit")
    page.locator("#text").press_sequentially("x")
    page.goto("/songs")
    assert asked == []
    page.add_init_script(NO_STORAGE)
    page.goto("/songs/3/edit")
    page.locator("#text").press_sequentially("x")
    page.goto("/songs")
    assert asked == ["beforeunload"]


def test_a_paste_that_is_far_too_long_is_told(page, editor):
    """Five million signs are not put in, and the text stays; the answer comes within seconds."""
    before = editor.input_value()
    editor.focus()
    start = time.monotonic()
    page.keyboard.insert_text("x" * 5_000_000)
    expect(page.get_by_text("It was not put in; your text is as it was.")).to_be_visible()
    assert time.monotonic() - start < 8
    expect(editor).to_have_value(before)


def test_a_text_beyond_the_bound_is_told_and_kept(page, editor):
    """However it came there, it is neither sent nor lost."""
    sent = []
    page.on("request", lambda request: sent.append(request.url) if "/page" in request.url else None)
    editor.evaluate("field => { field.value = '4 | 5 | 1 |\\n'.repeat(100000); }")
    editor.dispatch_event("input")
    expect(page.get_by_text("The text has 1.2 MB; a chart may have 1 MB.")).to_be_visible(timeout=20_000)
    page.keyboard.press("ControlOrMeta+s")
    assert page.url.endswith("/edit")
    assert editor.evaluate("field => field.value.length") == 1_200_000
    assert sent == []


def test_two_writers_bring_their_texts_together(page, editor, context, troubles):
    """The second to save sees both texts, and saves what is chosen; the draft is then forgotten."""
    text = editor.input_value()
    other = context.new_page()
    other.goto("/songs/3/edit")
    expect(other.locator(".overlay .line").first).to_be_visible()
    other.locator("#text").fill(text.replace("tempo: 112", "tempo: 99"))
    other.keyboard.press("ControlOrMeta+s")
    expect(other).to_have_url(re.compile(r"/songs/3$"))
    editor.fill(text.replace("octave: 3", "octave: 4"))
    troubles.expect("status of 409")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Two texts of one song")
    page.get_by_role("button", name="Save what is chosen").click()
    expect(page).to_have_url(re.compile(r"/songs/3$"))
    page.goto("/songs/3/edit")
    both = text.replace("tempo: 112", "tempo: 99").replace("octave: 3", "octave: 4")
    expect(page.locator("#text")).to_have_value(both)
    assert page.evaluate("localStorage.length") == 0


@pytest.mark.parametrize("viewport", [PHONE])
def test_a_telephone_shows_text_or_page(page, editor):
    """Each takes the other's place, by touch; a mend leads back to the text."""
    chart = page.get_by_role("region", name="The page")
    expect(chart).to_be_hidden()
    editor.fill(HEAD + "1 | 15\n")
    page.get_by_text("Page", exact=True).click()
    expect(chart).to_be_visible()
    expect(editor).to_be_hidden()
    faults(page).get_by_role("button", name="1 5").click()
    expect(editor).to_be_visible()
    expect(editor).to_have_value(HEAD + "1 | 1 5\n")


def test_the_page_is_shown_in_another_key(page, editor):
    """The key that is chosen stays while the text changes."""
    page.get_by_role("radio", name="A", exact=True).check(force=True)
    expect(page.locator(".wide .letters").first).to_have_text("E7")
    editor.press("End")
    editor.press_sequentially(" ")
    expect(page.get_by_role("radio", name="A", exact=True)).to_be_checked()


def test_a_new_song_that_was_not_saved_is_found_again(page):
    """The page New song leads back to it, whatever title it had."""
    page.goto("/songs/new?title=Seven+Cups&key=Am")
    page.locator("#text").fill(HEAD + "1 | 4 | 1\n")
    page.wait_for_timeout(600)
    page.goto("/songs/new")
    line = page.locator("[data-unsaved]")
    expect(line).to_contain_text("Not yet saved:")
    line.get_by_role("link").click()
    page.get_by_role("button", name="take it").click()
    expect(page.locator("#text")).to_have_value(HEAD + "1 | 4 | 1\n")
