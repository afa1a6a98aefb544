"""The staff of a song in a real browser: nothing covers anything, and a script opens it in place."""

import re

import pytest
from playwright.sync_api import expect

from tests.web.browser.screens import DESKTOP, PHONE, TABLET

SONGS = (2, 5, 6, 7, 8, 9, 10, 11)
# Pairs of numbers that lie over one another, over a note's head, or out of the picture.
COVERED = """() => {
  const picture = [...document.querySelectorAll("svg.staff")].find(one => one.checkVisibility());
  const boxed = one => [one.textContent, one.getBoundingClientRect()];
  const boxes = name => [...picture.querySelectorAll(name)].map(boxed);
  const numbers = boxes(".numbers text"), chords = boxes(".chords text"), heads = boxes(".heads use");
  const apart = ([, a], [, b]) => a.right <= b.left + .5 || b.right <= a.left + .5
    || a.bottom <= b.top + .5 || b.bottom <= a.top + .5;
  // A line of text is higher than its figures.
  const figure = ([text, box]) =>
    [text, new DOMRect(box.x, box.y + box.height * .2, box.width, box.height * .55)];
  const found = [];
  const check = (ones, others, same) => ones.forEach((one, at) => others.forEach((other, place) => {
    if (!(same && place <= at) && !apart(one, other)) found.push(`${one[0]} over ${other[0] || "a note"}`);
  }));
  check(numbers.map(figure), numbers.map(figure), true);
  check(chords.map(figure), chords.map(figure), true);
  check(numbers.map(figure), heads, false);
  check(chords.map(figure), heads, false);
  return found;
}"""


@pytest.mark.parametrize("viewport", [PHONE, TABLET, DESKTOP])
@pytest.mark.parametrize("song", SONGS)
def test_no_number_covers_a_note(page, song, viewport):
    """Numbers, chords and note heads keep out of one another's way at every width."""
    page.goto(f"/songs/{song}?staff=1&show=letters")
    page.evaluate("() => document.fonts.ready")
    assert page.evaluate(COVERED) == []


def test_the_panel_is_opened_in_place(page):
    """Opening it engraves the tune, the address then names it, and another key keeps it."""
    page.goto("/songs/2")
    page.get_by_text("the tune in D mixolydian").click()
    picture = page.get_by_role("img", name="Staff: Gull on the Crane in D mixolydian, treble clef")
    expect(picture).to_be_visible()
    expect(page).to_have_url(re.compile("staff=1$"))
    page.get_by_role("link", name="Semitone up").click()
    expect(
        page.get_by_role("img", name="Staff: Gull on the Crane in E♭ mixolydian, treble clef")
    ).to_be_visible()
    page.get_by_role("link", name="Without the staff").click()
    expect(page.get_by_role("img", name="Staff:")).to_have_count(0)


@pytest.mark.parametrize("scheme", ["dark"])
def test_the_staff_has_the_colour_of_the_page(page, scheme):
    """At night it is light on dark, as all else."""
    page.goto("/songs/2?staff=1")
    colour = "([name, kind]) => getComputedStyle(document.querySelector(name))[kind]"
    drawn = page.evaluate(colour, [".staff .heads", "fill"])
    assert drawn == page.evaluate(colour, ["body", "color"])
    assert drawn == "rgb(243, 235, 221)"
