"""What a leader does with a set: order, singers, keys, everyone's books."""

import zipfile

import pytest
from playwright.sync_api import expect

from tests.web.browser.checks import barriers, faint, small_targets, too_wide

FIRST = ["Lantern on the Quay", "Tar Lane Two-Step", "Wet Sail Waltz", "Herring Moon"]


@pytest.fixture
def titles(page):
    """The songs in running order."""
    page.goto("/sets/1")
    found = page.locator(".set-title")
    expect(found.nth(3)).to_have_text(FIRST[3])
    return found


def stands(page, titles, wanted):
    """The order is so, and stays so."""
    expect(titles.nth(0)).to_have_text(wanted[0])
    for place, title in enumerate(wanted):
        expect(titles.nth(place)).to_have_text(title)
    page.wait_for_load_state("networkidle")
    page.reload()
    for place, title in enumerate(wanted):
        expect(titles.nth(place)).to_have_text(title)


def grip(page, title):
    """A row's handle."""
    return page.get_by_role("button", name=f"Move {title}")


def test_the_order_is_changed_by_the_keyboard(page, titles):
    """Arrow keys move a row, say where it is, and leave the focus on it; every press counts."""
    grip(page, FIRST[0]).focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    expect(page.locator("#order-told")).to_have_text("Lantern on the Quay, 3 of 11")
    expect(grip(page, FIRST[0])).to_have_accessible_name("Move Lantern on the Quay, now 3 of 11")
    expect(grip(page, FIRST[0])).to_be_focused()
    page.keyboard.press("ArrowUp")
    expect(grip(page, FIRST[0])).to_have_accessible_name("Move Lantern on the Quay, now 2 of 11")
    expect(grip(page, FIRST[0])).to_be_focused()
    stands(page, titles, [FIRST[1], FIRST[0], FIRST[2]])


@pytest.mark.parametrize("viewport", [(390, 844), (1440, 900)], ids=["390", "1440"])
def test_the_order_is_changed_by_dragging(page, titles, viewport):
    """A row follows the pointer by its handle, and stays where it is let go."""
    start, end = grip(page, FIRST[0]).bounding_box(), grip(page, FIRST[2]).bounding_box()
    page.mouse.move(start["x"] + 20, start["y"] + 20)
    page.mouse.down()
    page.mouse.move(end["x"] + 20, end["y"] + 60, steps=6)
    page.mouse.up()
    stands(page, titles, [FIRST[1], FIRST[2], FIRST[0], FIRST[3]])


def test_the_order_is_changed_by_a_finger(browser, address):
    """A touch on a handle drags its row; the page does not scroll under it."""
    with browser.new_context(
        base_url=address, viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True
    ) as telephone:
        page = telephone.new_page()
        page.goto("/sets/1")
        titles = page.locator(".set-title")
        start, end = grip(page, FIRST[0]).bounding_box(), grip(page, FIRST[2]).bounding_box()
        touch = page.context.new_cdp_session(page)
        x, low, high = start["x"] + 20, start["y"] + 20, end["y"] + 60
        touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": low}]})
        for part in range(1, 7):
            point = {"x": x, "y": low + (high - low) * part / 6}
            touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [point]})
        touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
        assert page.evaluate("scrollY") == 0
        stands(page, titles, [FIRST[1], FIRST[2], FIRST[0], FIRST[3]])


def test_a_drag_is_taken_back_by_escape(page, titles):
    """The row is where it was, and nothing was sent."""
    start = grip(page, FIRST[0]).bounding_box()
    page.mouse.move(start["x"] + 20, start["y"] + 20)
    page.mouse.down()
    page.mouse.move(start["x"] + 20, start["y"] + 200, steps=6)
    expect(titles.nth(0)).to_have_text(FIRST[1])
    page.keyboard.press("Escape")
    expect(titles.nth(0)).to_have_text(FIRST[0])
    page.mouse.up()
    stands(page, titles, FIRST)


def test_a_row_is_changed_at_once(page, titles):
    """Another singer brings another key; the row stays open, the field keeps the focus, the side says why."""
    row = page.locator("#row-1")
    row.locator("summary").click()
    expect(page.locator("#why")).to_contain_text("Why C")
    row.get_by_label("Sung by").focus()
    row.get_by_label("Sung by").select_option("Tobias")
    expect(row.locator(".set-voice.on")).to_contain_text("Tobias in E")
    expect(row.get_by_label("Sung by")).to_be_focused()
    row.get_by_label("Key").select_option("D")
    expect(row.locator(".set-why")).to_contain_text("D was called; best for Tobias")


def counts_in(page, row, name):
    """Type who counts a song in, and send it."""
    page.locator(f"#row-{row} summary").click()
    page.locator(f"#row-{row}").get_by_label("Counts in").fill(name)
    page.keyboard.press("Enter")


def test_two_leaders_change_one_set_apart(page, titles, context):
    """One takes a song out, the other says who counts in another: both are kept, and it is said."""
    other = context.new_page()
    other.goto("/sets/1")
    page.locator("#row-1 summary").click()
    page.locator("#row-1").get_by_role("button", name="Take it out").click()
    expect(titles.nth(0)).to_have_text(FIRST[1])
    counts_in(other, 4, "Odile")
    expect(other.get_by_role("status")).to_contain_text("beside what somebody else changed")
    expect(other.locator(".set-title").nth(0)).to_have_text(FIRST[1])
    expect(other.locator("#row-3")).to_contain_text("Odile counts in")


def test_a_conflict_is_told_and_the_newest_stands(page, titles, context, troubles):
    """Two leaders at one field: the second learns what was not kept, and may put it in after all."""
    other = context.new_page()
    other.goto("/sets/1")
    counts_in(page, 4, "Bram")
    expect(page.locator("#row-4 .set-marks")).to_contain_text("Bram counts in")
    troubles.expect("status of 409")
    counts_in(other, 4, "Odile")
    expect(other.get_by_role("alert")).to_contain_text("“Herring Moon”: Odile counts in; now: Bram counts in")
    expect(other.locator("#row-4 .set-marks")).to_contain_text("Bram counts in")
    other.get_by_role("button", name="Keep mine").click()
    expect(other.locator("#row-4 .set-marks")).to_contain_text("Odile counts in")


def test_a_song_is_found_while_typing_and_put_in(page, titles):
    """A few letters, one touch."""
    page.goto("/sets/2")
    page.get_by_role("searchbox").fill("buoy")
    page.get_by_role("button", name="Put in Black Buoy").click()
    expect(page.get_by_role("status")).to_contain_text("It is in")
    expect(page.locator(".set-title")).to_have_text(["Black Buoy"])


@pytest.mark.parametrize("viewport", [(390, 844)], ids=["390"])
def test_everyones_books_come_as_one_zip(page, titles, tmp_path, viewport):
    """The page tells how far it is, then gives them; it stands on a telephone as every page does."""
    page.goto("/sets/2")
    page.get_by_role("searchbox").fill("buoy")
    page.get_by_role("button", name="Put in Black Buoy").click()
    page.get_by_role("button", name="Print everyone’s book").click()
    link = page.get_by_role("link", name="All as one ZIP")
    expect(link).to_be_visible(timeout=60_000)
    assert [*too_wide(page), *small_targets(page), *barriers(page), *faint(page)] == []
    with page.expect_download() as download:
        link.click()
    assert download.value.suggested_filename == "an-evening-to-come.zip"
    download.value.save_as(tmp_path / "all.zip")
    with zipfile.ZipFile(tmp_path / "all.zip") as archive:
        assert "an-evening-to-come/key-sheet.pdf" in archive.namelist()


def test_a_set_is_put_together_without_scripts(browser, address):
    """Every change is a form that the browser sends itself."""
    with browser.new_context(base_url=address, java_script_enabled=False) as plain:
        page = plain.new_page()
        page.goto("/sets/1")
        page.locator("#row-2 summary").click()
        page.locator("#row-2").get_by_role("button", name="Up").click()
        assert page.url.endswith("/sets/1?row=1#row-1")
        assert page.locator(".set-title").first.inner_text() == FIRST[1]
        page.locator("#row-1").get_by_label("Counts in").fill("Odile")
        page.locator("#row-1").get_by_role("button", name="Keep").click()
        assert "Odile counts in" in page.locator("#row-1").inner_text()


def test_a_tick_right_after_typing_is_kept(page, titles):
    """Leaving a field keeps what was typed there, and does not eat the next click."""
    row = page.locator("#row-1")
    row.locator("summary").click()
    expect(page.locator("#why")).to_contain_text("Why C")
    row.get_by_label("Counts in").fill("Odile")
    row.get_by_label("straight on").click()
    expect(row).to_contain_text("Odile counts in, then straight on")
    page.reload()
    expect(page.locator("#row-1")).to_contain_text("Odile counts in, then straight on")
