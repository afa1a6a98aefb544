"""The checks of the other tests here find what they look for."""

import asyncio
import re

import pytest

from tests.web.browser.checks import bad_frame, barriers, faint, lost_keys, shift, small_targets, too_wide

INTO_STYLE = "document.body.innerHTML = '<p style=\"color: red\">red</p>'"
GOOD = (
    "<html lang=en><title>Songs – fifthwise</title>"
    "<style>a,button{display:block;height:44px;width:90px}:focus{outline:3px solid}</style>"
    "<header><nav aria-label=Rooms><a href=/songs>Songs</a></nav></header>"
    "<main><h1>Songs</h1><p>in <a href=/1 style='display:inline'>running</a> text</p></main>"
)


@pytest.mark.parametrize(
    ("script", "told"),
    [
        ("setTimeout(() => { throw Error('slip') })", "script: .*slip"),
        ("console.error('slip')", "console: slip"),
        (INTO_STYLE, "policy: style-src-attr"),
        ("new Image().src = 'http://elsewhere.test/dot.png'", "request to elsewhere: .*elsewhere"),
    ],
)
def test_what_goes_wrong_in_the_browser_is_found(page, troubles, script, told):
    """Errors, refusals by the policy, and requests that leave the server."""
    page.goto("/songs")
    page.evaluate(script)
    page.wait_for_timeout(200)
    assert any(re.search(told, trouble) for trouble in troubles.left())
    troubles.found.clear()


def test_a_trouble_that_was_expected_has_to_come(page, troubles):
    """A fault that is no longer told is told by the test."""
    page.goto("/songs")
    troubles.expect("status of 422")
    assert troubles.left() == ["expected: status of 422"]
    troubles.expected.clear()


@pytest.mark.parametrize(
    ("check", "html", "told"),
    [
        (too_wide, "<p style='width:4000px'>wide", "needs 40"),
        (small_targets, "<main><button style='height:20px;width:44px'>small</button>", "44 x 20"),
        (small_targets, "<li><a href=/1>alone</a>", "alone"),
        (barriers, "<p style='color:#999'>faint", "color-contrast"),
        (barriers, "<input>", "label"),
        (
            faint,
            "<style>@media (prefers-color-scheme: dark) {p{color:#999}}</style><p>faint",
            "(?s)by night: .*999",
        ),
        (lost_keys, "<style>:focus{outline:none}</style><a href=/1>dark</a>", "dark.*shows no focus"),
        (
            lost_keys,
            "<textarea id=a></textarea><button onfocus='a.focus()'>kept</button><a href=/1>far</a>",
            "does not reach",
        ),
    ],
)
def test_a_bad_page_is_found(context, check, html, told):
    """Each check says what is wrong with a page that was made to fail it."""
    bare = context.new_page()
    bare.set_content(GOOD)
    assert [*check(bare)] == []
    bare.set_content(f"<html lang=en><title>Bad</title>{html}")
    assert any(re.search(told, wrong) for wrong in check(bare))


def test_a_page_that_does_not_say_what_it_is_is_found(context):
    """The title, the one heading, the landmarks."""
    bare = context.new_page()
    bare.set_content(GOOD)
    assert bad_frame(bare, "Songs") == []
    bare.set_content("<title>Page</title><h1>One</h1><h1>Two</h1>")
    assert len(bad_frame(bare, "Songs")) == 5


def test_a_page_that_moves_is_found(page):
    """What comes late pushes the rest down, and that is measured."""
    page.goto("/songs")
    assert shift(page) == []
    page.add_init_script(
        "addEventListener('load', () => requestAnimationFrame(() => setTimeout(() => {"
        "const late = document.createElement('h1'); late.textContent = 'late '.repeat(99); "
        "document.querySelector('main').prepend(late)})))"
    )
    assert "shifts by" in shift(page)[0]


async def answer():
    """What a test of another folder might run."""
    return 1


@pytest.mark.parametrize("turn", [1, 2])
def test_other_tests_may_run_a_loop_of_their_own(chromium, turn):
    """The browser's driver leaves the worker's thread free between its tests."""
    assert asyncio.run(answer()) == 1
