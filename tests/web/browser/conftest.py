"""A browser on the workbench: one Chromium a worker, a book of its own for every test.

`page` is what most tests need: ``page.goto("/songs/3")``. Its test fails when anything goes wrong in the
browser (`Troubles`). A test chooses a screen and a scheme with ``parametrize("viewport", [PHONE])`` and
``parametrize("scheme", ["dark"])``. Wait with ``expect(locator)``: the pages' policy forbids to wait for a
script that is given as text.
"""

import asyncio
import os
import shutil

import pytest
from playwright.sync_api import expect, sync_playwright

import dev
from fifthwise.book import open_book
from tests.web.browser.screens import DESKTOP, TOUCHED
from tests.web.browser.serving import fill, served
from tests.web.browser.troubles import Troubles

# Nothing is timed here: a machine with other work to do only takes longer.
PATIENCE_MS = 30_000
expect.set_options(timeout=PATIENCE_MS)
OPTIONS = (
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    # no name leads anywhere: what is not the server itself cannot be reached
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
)
# Chromium's sandbox refuses to run for root.
AS_ROOT = ("--no-sandbox",) if hasattr(os, "geteuid") and os.geteuid() == 0 else ()


@pytest.fixture(scope="session")
def chromium():
    """The worker's browser, and the loop that its driver runs on."""
    try:
        program = dev.find_browser()
    except dev.SetUpError as fault:
        if os.environ.get("CI"):
            pytest.fail(str(fault), pytrace=False)
        pytest.skip(str(fault))
    with sync_playwright() as playwright:
        loop = asyncio.get_running_loop()
        started = playwright.chromium.launch(executable_path=program, args=[*OPTIONS, *AS_ROOT])
        asyncio._set_running_loop(None)
        yield started, loop
        asyncio._set_running_loop(loop)
        started.close()


@pytest.fixture
def browser(chromium):
    """The browser, for the time of a test."""
    # Between its calls the driver leaves this thread marked as running its loop, which would keep every other
    # test of the worker from running one.
    started, loop = chromium
    asyncio._set_running_loop(loop)
    yield started
    asyncio._set_running_loop(None)


@pytest.fixture(scope="session")
def filled_book(tmp_path_factory):
    """A book with the demo in it, to copy or to read."""
    file = tmp_path_factory.mktemp("demo") / "book.sqlite"
    with open_book(file) as book:
        fill(book)
    return file


@pytest.fixture(scope="session")
def reading_address(filled_book):
    """A workbench for tests that change nothing."""
    with served(filled_book) as address:
        yield address


@pytest.fixture
def address(filled_book, tmp_path):
    """A workbench of the test's own."""
    file = shutil.copy(filled_book, tmp_path / "book.sqlite")
    with served(file) as served_at:
        yield served_at


@pytest.fixture
def viewport():
    """The screen's width and height in pixels."""
    return DESKTOP


@pytest.fixture
def scheme():
    """What the device prefers: light or dark."""
    return "light"


@pytest.fixture
def context(browser, address, viewport, scheme):
    """A visitor who has not been here before."""
    width, height = viewport
    with browser.new_context(
        base_url=address,
        viewport={"width": width, "height": height},
        color_scheme=scheme,
        has_touch=viewport in TOUCHED,
    ) as made:
        made.set_default_timeout(PATIENCE_MS)
        yield made


@pytest.fixture
def troubles(context, address):
    """What goes wrong; whatever the test did not expect fails it."""
    watched = Troubles(context, address)
    yield watched
    assert watched.left() == []


@pytest.fixture
def page(context, troubles):
    """The visitor's page."""
    return context.new_page()
