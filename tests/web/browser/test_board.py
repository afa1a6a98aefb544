"""A bar is touched, and the fingerboard says its chord."""

import re

import pytest
from playwright.sync_api import expect

from tests.web.browser.screens import DESKTOP, PHONE, TABLET, TOUCHED

SONG = "/songs/4?key=Bb&for=player:1"
SIZES = [PHONE, TABLET, DESKTOP]


def slot(page, at):
    """A slot of the chart that is seen."""
    return page.locator(f'.chart:visible [data-at="{at}"]')


def touch(page, at, viewport):
    """Touch a slot as the screen is touched."""
    slot(page, at).scroll_into_view_if_needed()
    before = slot(page, at).bounding_box()
    if viewport in TOUCHED:
        slot(page, at).tap()
    else:
        slot(page, at).click()
    return before


def shown(page):
    """What the fingerboard's heading says."""
    return page.locator("#fold-board > summary:visible, #fold-board > h2:visible")


@pytest.mark.parametrize("viewport", SIZES, ids=lambda size: str(size[0]))
def test_a_touched_bar_is_on_the_board_and_in_the_address(page, viewport):
    """The board says the chord in sight of the chart; a reload and another key keep the place."""
    page.goto(SONG)
    expect(shown(page)).to_contain_text("anchors in B♭")
    before = touch(page, "1.2.0", viewport)
    expect(shown(page)).to_contain_text("on the 6– Gm")
    expect(page).to_have_url(re.compile(r"key=Bb\b.*&at=1\.2\.0$"))
    expect(page.locator("#song-told")).to_have_text("on the 6– Gm")
    expect(page.get_by_role("img", name="6– is Gm")).to_be_in_viewport()
    touched = slot(page, "1.2.0")
    expect(touched).to_have_attribute("data-touched", "")
    expect(touched).to_be_in_viewport(ratio=1)
    foot = page.locator("#fold-board").bounding_box()
    after = touched.bounding_box()
    if viewport is DESKTOP:
        assert after == before
    else:
        assert after["y"] + after["height"] <= foot["y"] + 1
        assert before["y"] + before["height"] > foot["y"] or after == before
    page.reload()
    expect(shown(page)).to_contain_text("on the 6– Gm")
    page.get_by_role("navigation", name="Key", exact=True).get_by_role("link", name="F , the 5").click()
    expect(shown(page)).to_contain_text("on the 6– Dm")
    expect(page).to_have_url(re.compile(r"key=F&.*&at=1\.2\.0$"))


@pytest.mark.parametrize("viewport", [PHONE, DESKTOP], ids=lambda size: str(size[0]))
def test_a_key_that_is_called_after_a_touch_keeps_the_bar(page, viewport):
    """The links of the key row are as old as the page, and go to the place all the same."""
    page.goto(SONG)
    touch(page, "0.0.0", viewport)
    expect(shown(page)).to_contain_text("on the 1 B♭")
    page.locator("#up").click()
    expect(page).to_have_url(re.compile(r"key=B&.*&at=0\.0\.0$"))
    expect(shown(page)).to_contain_text("on the 1 B")
    page.get_by_role("link", name="Let go").click()
    expect(page).to_have_url(re.compile(r"key=B&for=player:1$"))
    page.locator("#up").click()
    expect(page).to_have_url(re.compile(r"key=C&for=player:1$"))
    expect(page.locator("[data-touched]")).to_have_count(0)


@pytest.mark.parametrize("viewport", [PHONE, DESKTOP], ids=lambda size: str(size[0]))
def test_the_board_is_walked_by_the_keyboard(page, viewport):
    """After goes to the next chord and stays under the fingers; Escape lets go."""
    page.goto(f"{SONG}&at=0.0.0")
    after = page.get_by_role("link", name="After")
    after.focus()
    for told in ("5/7 F/A", "6– Gm", "4 E♭", "5 F"):
        page.keyboard.press("Enter")
        expect(shown(page)).to_contain_text(f"on the {told}")
        expect(after).to_be_focused()
    expect(slot(page, "0.3.1")).to_have_attribute("data-touched", "")
    expect(slot(page, "0.3.1")).to_be_in_viewport()
    page.keyboard.press("Escape")
    expect(shown(page)).to_contain_text("anchors in B♭")


def test_the_place_beside_a_sign_belongs_to_its_slot(page):
    """In a bar of two chords the half that is touched decides, at its letters and above its number too."""
    page.goto(SONG)
    bar = page.locator(".chart:visible .bar", has=page.locator('[data-at="0.3.1"]')).bounding_box()
    for part, told in ((0.05, "4 E♭"), (0.55, "5 F"), (0.45, "4 E♭"), (0.95, "5 F")):
        page.mouse.click(bar["x"] + part * bar["width"], bar["y"] + bar["height"] - 10)
        expect(shown(page)).to_contain_text(f"on the {told}")


def test_what_the_board_shows_is_chosen(page):
    """Chord, anchors or key without a new page; a bar that is touched is a chord again."""
    page.goto(f"{SONG}&at=1.2.0")
    choices = page.get_by_role("navigation", name="On the fingerboard")
    for name, told in (("Anchors", "anchors in B♭"), ("Key", "all of B♭"), ("Chord", "on the 6– Gm")):
        choices.get_by_role("link", name=name).click()
        expect(shown(page)).to_contain_text(told)
        expect(choices.get_by_role("link", name=name)).to_have_attribute("aria-current", "true")
    choices.get_by_role("link", name="Key").click()
    expect(page).to_have_url(re.compile(r"see=key&at=1\.2\.0$"))
    slot(page, "1.3.0").click()
    expect(shown(page)).to_contain_text("on the 4 E♭")
    expect(page).to_have_url(re.compile(r"at=1\.3\.0$"))


def test_another_instrument_is_chosen_and_stays(page):
    """A page without a fingerboard remembers whose it shows, from bar to bar."""
    page.goto("/songs/4?at=1.2.0")
    page.get_by_label("Instrument").select_option("cello")
    expect(page.get_by_role("img", name="on the cello")).to_be_visible()
    slot(page, "1.3.0").click()
    expect(page).to_have_url(re.compile(r"board=cello&at=1\.3\.0$"))
    expect(page.get_by_role("img", name="on the cello")).to_be_visible()


@pytest.mark.parametrize("viewport", [PHONE, DESKTOP], ids=lambda size: str(size[0]))
def test_the_board_works_without_scripts(browser, address, viewport):
    """A chord from the list is shown and marked; before and after go on from there; letting go ends it."""
    size = {"width": viewport[0], "height": viewport[1]}
    with browser.new_context(base_url=address, java_script_enabled=False, viewport=size) as plain:
        page = plain.new_page()
        page.goto(SONG)
        if viewport is PHONE:
            shown(page).click()
        page.get_by_role("navigation", name="Chords of the song").get_by_role("link", name="6– Gm").click()
        expect(shown(page)).to_contain_text("on the 6– Gm")
        expect(page.locator(".chart:visible [data-touched]")).to_have_count(1)
        page.get_by_role("link", name="After").click()
        expect(shown(page)).to_contain_text("on the 4 E♭")
        page.get_by_role("link", name="Let go").click()
        expect(shown(page)).to_contain_text("anchors in B♭")
