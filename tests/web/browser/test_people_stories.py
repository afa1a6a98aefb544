"""What is done on the pages of singers and players."""

import pytest
from playwright.sync_api import expect

from tests.web.browser.screens import DESKTOP, PHONE, TOUCHED

SCREENS = pytest.mark.parametrize("viewport", [PHONE, DESKTOP], ids=lambda size: str(size[0]))
NOTES = {"Lowest note": "D3", "Highest note": "F5", "Easy from": "B♭3", "Easy up to": "A♭4"}


def note_field(page, name):
    """A field for a note, by the end of its label."""
    return page.get_by_role("textbox", name=name.lower())


@SCREENS
def test_a_singer_is_written_down_by_pressing_keys(page, viewport):
    """Choose a field, press a key: the field has the note, the picture follows, and Save keeps it."""
    page.goto("/singers")
    page.get_by_role("link", name="New singer").click()
    page.get_by_label("Name", exact=True).fill("Siv")
    for name, note in NOTES.items():
        note_field(page, name).focus()
        expect(page.get_by_role("status")).to_contain_text(name)
        key = page.locator(f"[data-note='{note}']")
        if viewport in TOUCHED:
            key.tap()
        else:
            key.click(position={"x": 9, "y": 10 if "♭" in note else 140})
        expect(note_field(page, name)).to_have_value(note)
    expect(page.get_by_role("img", name="Reaches D3 to F5, easy B♭3 to A♭4.")).to_be_visible()
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("status").first).to_have_text("Saved.")
    expect(page.get_by_role("heading", level=1)).to_have_text("Siv")
    page.get_by_role("link", name="All singers").click()
    expect(page.get_by_role("row", name="Siv")).to_contain_text("D3 – F5")


def test_the_picture_follows_what_is_typed(page):
    """A note that is typed stands over the keys at once, and what was typed is left alone."""
    page.goto("/singers/2")
    note_field(page, "Lowest note").press_sequentially("x")
    expect(page.get_by_role("img", name="Reaches ? to G4")).to_be_visible()
    note_field(page, "Lowest note").fill("g 2")
    expect(page.get_by_role("img", name="Reaches G2 to G4")).to_be_visible()
    expect(note_field(page, "Lowest note")).to_have_value("g 2")


def test_a_fault_is_mended_where_it_stands(page, troubles):
    """The fault leads to its field; mended, the form is saved with all that was typed before."""
    troubles.expect("status of 422")
    page.goto("/singers/2")
    note_field(page, "Turns at").fill("H4")
    note_field(page, "Lowest note").fill("G2")
    page.get_by_role("button", name="Save").click()
    page.get_by_role("alert").get_by_role("link", name="Turns at").click()
    expect(note_field(page, "Turns at")).to_be_focused()
    page.keyboard.press("Control+a")
    page.keyboard.type("E4")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status").first).to_have_text("Saved.")
    expect(note_field(page, "Lowest note")).to_have_value("G2")


def test_two_who_change_one_singer_see_both_states(context, page, troubles):
    """The later one is told what differs, and can save over it."""
    troubles.expect("status of 409")
    page.goto("/singers/2")
    other = context.new_page()
    other.goto("/singers/2")
    note_field(other, "Highest note").fill("A4")
    other.get_by_role("button", name="Save").click()
    expect(other.get_by_role("status").first).to_have_text("Saved.")
    note_field(page, "Lowest note").fill("G2")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("row", name="Highest note")).to_contain_text("G4")
    expect(page.get_by_role("row", name="Highest note")).to_contain_text("A4")
    page.get_by_role("button", name="Save mine over it").click()
    expect(page.get_by_role("status").first).to_have_text("Saved.")
    expect(note_field(page, "Lowest note")).to_have_value("G2")
    expect(note_field(page, "Highest note")).to_have_value("G4")


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_player_is_asked_what_belongs_to_the_instrument(browser, address, scripts):
    """Level with bowed strings, capo with guitars, neither with keys; then the page as the player has it."""
    with browser.new_context(base_url=address, java_script_enabled=scripts) as visitor:
        page = visitor.new_page()
        page.goto("/players/new")
        page.get_by_label("Name").fill("Nell")
        for instrument, asked in (("Keys", ()), ("Guitar", ("May use a capo",)), ("Viola", ("At home in",))):
            page.get_by_label("Instrument").select_option(instrument)
            for label in ("May use a capo", "At home in"):
                expect(page.get_by_label(label)).to_be_visible(visible=label in asked)
        page.get_by_role("button", name="Save").click()
        page.get_by_role("link", name="What Nell’s page looks like").click()
        expect(page.get_by_text("Nell, Viola").first).to_be_visible()


def test_a_player_is_removed_by_the_keyboard_alone(page, address):
    """Remove asks on a page of its own; Keep stands first."""
    page.goto("/players/new")
    page.get_by_label("Name").fill("Nell")
    page.get_by_label("Instrument").select_option("Viola")
    page.get_by_role("button", name="Save").press("Enter")
    page.get_by_role("link", name="Remove").press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Remove Nell?")
    page.get_by_role("button", name="Remove").press("Enter")
    expect(page).to_have_url(f"{address}/players")
    expect(page.get_by_role("link", name="Ines").first).to_be_visible()
    expect(page.get_by_role("link", name="Nell")).to_have_count(0)
