"""What players do, from page to page."""

import re

import pytest
from playwright.sync_api import expect

from tests.web.browser.screens import DESKTOP, PHONE, TOUCHED


@pytest.fixture
def keys(page):
    """The key row."""
    return page.get_by_role("navigation", name="Key", exact=True)


def current(keys):
    """The key that the song is shown in."""
    return keys.locator("[aria-current]")


@pytest.mark.parametrize("viewport", [PHONE, DESKTOP], ids=lambda size: str(size[0]))
def test_a_touch_on_the_key_row_is_an_address(page, keys, viewport):
    """A song is put into another key by one touch; the browser's way back and forth keeps the keys."""
    page.goto("/")
    page.get_by_role("link", name="Black Buoy").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Black Buoy")
    wanted = keys.get_by_role("link").nth(2)
    written, called = (place.get_attribute("href") for place in (current(keys), wanted))
    if viewport in TOUCHED:
        wanted.tap()
    else:
        wanted.click()
    expect(page).to_have_url(re.compile(re.escape(called) + "$"))
    expect(current(keys)).to_have_attribute("href", called)
    page.go_back()
    expect(current(keys)).to_have_attribute("href", written)
    page.go_forward()
    expect(current(keys)).to_have_attribute("href", called)
    page.reload()
    expect(current(keys)).to_have_attribute("href", called)


@pytest.mark.parametrize(("scheme", "other"), [("light", "Night"), ("dark", "Day")])
def test_night_and_day_stay(page, scheme, other):
    """What is chosen holds on every page, whatever the device prefers, until the other is chosen."""
    back = {"Night": "Day", "Day": "Night"}[other]
    page.goto("/songs/2")
    colour = "getComputedStyle(document.documentElement).backgroundColor"
    before = page.evaluate(colour)
    page.get_by_role("button", name=other).click()
    expect(page.get_by_role("button", name=back)).to_be_visible()
    assert page.url.endswith("/songs/2")
    chosen = page.evaluate(colour)
    assert chosen != before
    page.goto("/songs")
    assert page.evaluate(colour) == chosen
    page.get_by_role("button", name=back).click()
    expect(page.get_by_role("button", name=other)).to_be_visible()
    assert page.evaluate(colour) == before


def test_a_chart_is_found_and_put_into_a_key_by_the_keyboard_alone(page, keys):
    """From the address bar: over the frame by the first link, to a song, to a key."""
    page.goto("/songs")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()
    tab_to(page, page.get_by_role("link", name="Northerly"))
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Northerly")
    wanted = keys.get_by_role("link").nth(4)
    called = wanted.get_attribute("href")
    tab_to(page, wanted)
    page.keyboard.press("Enter")
    expect(page).to_have_url(re.compile(re.escape(called) + "$"))
    expect(current(keys)).to_have_attribute("href", called)
    expect(current(keys)).to_be_focused()


def tab_to(page, wanted, most=60):
    """Press Tab until it is there."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if wanted.evaluate("one => one === document.activeElement"):
            return
    raise AssertionError(f"Tab did not come to {wanted}")


@pytest.mark.parametrize("viewport", [PHONE])
def test_the_rooms_take_one_row_of_a_telephone(page):
    """The names of the rooms and of the look stand in one line, so that the page begins early."""
    page.goto("/help")
    rooms = page.get_by_role("navigation", name="Rooms").locator("a:visible, button:visible")
    tops = {round(each.bounding_box()["y"]) for each in rooms.all()}
    assert rooms.count() == 6
    assert len(tops) == 1


def test_keys_of_the_keyboard_change_the_key_of_the_song(page, keys):
    """Signs step by a semitone, arrows walk the row, and a field that is typed in is left in peace."""
    page.goto("/songs/4?key=C")
    for pressed, called in (("-", "B"), ("[", "Bb"), ("+", "B"), ("]", "C")):
        page.keyboard.press(pressed)
        expect(page).to_have_url(re.compile(rf"\?key={called}$"))
        expect(page).to_have_title(re.compile(f"in {called.replace('b', '♭')} "))
    current(keys).focus()
    page.keyboard.press("ArrowRight")
    expect(keys.get_by_role("link").nth(7)).to_be_focused()
    page.get_by_label("Part").focus()
    page.keyboard.press("-")
    page.wait_for_timeout(200)
    expect(page).to_have_url(re.compile(r"\?key=C$"))


def test_the_chart_alone_is_left_by_escape(page, keys):
    """Its keys go on working, and the whole page comes back in the key that was reached."""
    page.goto("/songs/4?key=C")
    page.get_by_role("link", name="Chart only").click()
    expect(keys).to_have_count(0)
    page.keyboard.press("+")
    expect(page).to_have_url(re.compile(r"\?key=Db&only=1$"))
    page.keyboard.press("Escape")
    expect(page).to_have_url(re.compile(r"\?key=Db$"))
    expect(current(keys)).to_have_count(1)


def test_choosing_a_part_needs_no_button(page):
    """The chart is read in the part's key as soon as it is chosen; the address is short."""
    page.goto("/songs/4?key=C")
    page.get_by_label("Part").select_option("horn in F")
    expect(page).to_have_url(re.compile(r"\?key=C&part=horn\+in\+F$"))
    expect(page.get_by_text("written in G, sounds in C").first).to_be_visible()
