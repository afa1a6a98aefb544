"""What holds of every page, on every screen, by day and by night."""

from dataclasses import dataclass

import pytest
from starlette.routing import Mount, Route

from fifthwise.book import open_book
from fifthwise.web import make_app
from tests.web.browser.checks import (
    bad_frame,
    barriers,
    faint,
    late_fonts,
    lost_keys,
    shift,
    small_targets,
    too_wide,
)
from tests.web.browser.screens import DESKTOP, PHONE, TABLET

HEAVIEST_BYTES = 150_000


@dataclass(frozen=True, slots=True)
class Visit:
    """A page as it is asked for: its route, an address of it, what its title names, how it is answered.

    ``bare`` is the button that stands there only without scripts, which do its work.
    """

    route: str
    path: str
    names: str
    status: int = 200
    bare: str = ""


VISITS = (
    Visit("/songs", "/songs", "Songs"),
    Visit("/songs", "/songs?find=6-+4&order=tempo&low=60", "Songs"),
    Visit("/songs", "/songs?find=zzz&tag=no+such", "Songs"),
    Visit("/songs", "/songs?find=6-+b", "Songs", 422),
    Visit("/songs/import", "/songs/import", "Import"),
    Visit("/songs/{song_id:int}", "/songs/3?key=Bb", "in B♭"),
    Visit("/songs/{song_id:int}", "/songs/4?for=singer:1", "in C"),
    Visit("/songs/{song_id:int}", "/songs/8?for=player:1&key=G%23m&tune=1&words=1", "in G♯ minor"),
    Visit("/songs/{song_id:int}", "/songs/9?key=A&only=1", "in A dorian"),
    Visit("/songs/{song_id:int}/remove", "/songs/3/remove", "Remove"),
    Visit("/songs/{song_id:int}", "/songs/4?for=player:1&key=Bb&at=1.2.0", "in B♭"),
    Visit("/songs/{song_id:int}", "/songs/8?for=player:6&at=0.3.1&board=cello&hand=all", "in E minor"),
    Visit("/songs/{song_id:int}", "/songs/4?see=key", "in G"),
    Visit("/songs/{song_id:int}", "/songs/2?staff=1&part=viola&key=Ab", "in A♭"),
    Visit("/songs/{song_id:int}", "/songs/1?key=H", "A fault", 422),
    Visit("/songs/{song_id:int}", "/songs/999", "A fault", 404),
    Visit("/songs/new", "/songs/new", "New song"),
    Visit("/songs/new", "/songs/new?title=Pier&key=Eb", "Pier, edit", bare="Look"),
    Visit("/songs/{song_id:int}/edit", "/songs/3/edit", "edit", bare="Look"),
    Visit("/songs/{song_id:int}/versions", "/songs/3/versions", "versions"),
    Visit("/songs/{song_id:int}/versions/compare", "/songs/3/versions/compare", "version 1"),
    Visit("/sets", "/sets", "Sets"),
    Visit("/sets/{set_id:int}", "/sets/1?row=3", "The Harbour Lamp dance"),
    Visit("/sets/{set_id:int}", "/sets/2", "An evening to come"),
    Visit("/sets/{set_id:int}", "/sets/999", "A fault", 404),
    Visit("/sets/{set_id:int}/find", "/sets/2/find?find=moon", "An evening to come"),
    Visit("/sets/{set_id:int}/remove", "/sets/1/remove", "Remove"),
    Visit("/sets/{set_id:int}/print/{run:int}", "/sets/1/print/9", "A fault", 404),
    Visit("/singers", "/singers", "Singers"),
    Visit("/singers/new", "/singers/new", "New singer"),
    Visit("/singers/{number:int}", "/singers/2", "Tobias"),
    Visit("/singers/{number:int}/remove", "/singers/1/remove", "Remove Maren"),
    Visit("/singers/{number:int}", "/singers/999", "A fault", 404),
    Visit("/players", "/players", "Players"),
    Visit("/players/new", "/players/new", "New player"),
    Visit("/players/{number:int}", "/players/1", "Ines"),
    Visit("/players/{number:int}/remove", "/players/1/remove", "Remove Ines"),
    Visit("/help", "/help", "Help"),
    Visit("/help/{topic}", "/help/chart-text", "Chart text"),
    Visit("/help/{topic}", "/help/signs", "Signs"),
    Visit("/help/{topic}", "/help/keyboard", "Keyboard"),
    Visit("/help/{topic}", "/help/glossary", "Words"),
    Visit("/share", "/share", "Share"),
    Visit("/share/devices", "/share/devices", "Devices"),
    Visit("/cautions", "/cautions", "Cautions"),
    Visit("", "/no-such-page", "No such page", 404),
)
# Routes that can be asked for and are no pages, each with what they are.
NO_PAGES = {
    "/": "leads on to the songs, or is the start of an empty book",
    "/songs/import/{run}": "what became of an import",
    "/songs/{song_id:int}/staff": "a song's staff, which leads on to the song",
    "/songs/{song_id:int}/staff.svg": "a song's staff as a picture",
    "/songs/{song_id:int}/board": "a song's fingerboard, which leads on to the song",
    "/songs/import/{run}/{place:int}": "what is open of a file that was brought in",
    "/songs/{song_id:int}/export/{kind}": "a song for another program",
    "/sets/{set_id:int}/songs.zip": "an evening's songs for other programs",
    "/songs/{song_id:int}/song.pdf": "a song on paper",
    "/songs/{song_id:int}/song.txt": "a song as text",
    "/songs/{song_id:int}/song.html": "a song as one file",
    "/songs/{song_id:int}/words.pdf": "its words on paper",
    "/songs/{song_id:int}/picture.svg": "a singer's picture",
    "/songs/{song_id:int}/{name}.chart.md": "a chart's text",
    "/sets/{set_id:int}/set.html": "an evening as one file",
    "/sets/{set_id:int}/{name}.set.yaml": "an evening as text",
    "/sets/{set_id:int}/print/{run:int}/all.zip": "everyone's books",
    "/sets/{set_id:int}/print/{run:int}/files/{path:path}": "one of everyone's books",
    "/singers/keyboard": "a keyboard for a singer's form",
    "/static/{mark}/{name:path}": "styles, scripts and fonts",
    "/share/ca.crt": "the certificate that devices are told to trust",
    "/join": "leads on to how to share, where nothing is shared",
    "/leader": "leads on to how to share, where nothing is shared",
    "/leave": "leads on to how to share, where nothing is shared",
}


@pytest.fixture
def address(reading_address):
    """Nothing is changed here, so that all look at one workbench."""
    return reading_address


@pytest.fixture(params=VISITS, ids=lambda visit: visit.path)
def visit(request):
    """A page of the table."""
    return request.param


@pytest.fixture
def opened(page, troubles, visit):
    """The page, come to rest."""
    if visit.status >= 400:
        troubles.expect(f"status of {visit.status}")
    assert page.goto(visit.path).status == visit.status
    return page


def test_no_page_is_forgotten(filled_book):
    """Every address that can be asked for is a page of the table, or is said to be none."""
    with open_book(filled_book) as book:
        found = set(asked_for(make_app(book).routes))
    told = {visit.route for visit in VISITS if visit.route} | NO_PAGES.keys()
    assert found - told == set(), "add them to VISITS, or say in NO_PAGES what they are"
    assert told - found == set(), "these are gone"


def asked_for(routes, above=""):
    """The paths that answer GET."""
    for route in routes:
        if isinstance(route, Mount) and route.routes:
            yield from asked_for(route.routes, above + route.path)
        elif isinstance(route, Mount) or (isinstance(route, Route) and "GET" in route.methods):
            yield above + route.path


@pytest.mark.parametrize("viewport", [PHONE, TABLET, DESKTOP], ids=lambda size: str(size[0]))
def test_every_page_stands_on_every_screen(opened, visit):
    """It fits, stands still, says what it is, can be touched, and shuts nobody out, by day and by night."""
    wrong = [
        *late_fonts(opened),
        *shift(opened),
        *too_wide(opened),
        *bad_frame(opened, visit.names),
        *small_targets(opened),
        *barriers(opened),
        *faint(opened),
    ]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("viewport", [PHONE, DESKTOP], ids=lambda size: str(size[0]))
def test_the_keyboard_reaches_everything_and_is_seen(opened):
    """Tab goes through all that acts, shows where it is, and comes out at the end."""
    assert lost_keys(opened) == []


def test_every_page_is_read_without_scripts(opened, browser, address, visit):
    """The same words stand there where JavaScript is switched off."""
    with browser.new_context(base_url=address, java_script_enabled=False) as plain:
        bare = plain.new_page()
        bare.goto(visit.path)
        with_scripts = opened.get_by_role("main").inner_text().split()
        assert bare.get_by_role("main").text_content().split()
        words = bare.locator("main").inner_text().split()
        if visit.bare:
            words.remove(visit.bare)
        assert words == with_scripts


def test_no_page_is_heavy(page, visit, troubles):
    """What comes over the line for a first visit, fonts aside, is under 150 kB."""
    if visit.status >= 400:
        troubles.expect(f"status of {visit.status}")
    line = page.context.new_cdp_session(page)
    line.send("Network.enable")
    kinds, sizes = {}, {}
    line.on("Network.responseReceived", lambda told: kinds.update({told["requestId"]: told["type"]}))
    line.on(
        "Network.loadingFinished", lambda told: sizes.update({told["requestId"]: told["encodedDataLength"]})
    )
    page.goto(visit.path, wait_until="networkidle")
    weights = {request: size for request, size in sizes.items() if kinds.get(request) != "Font"}
    assert len(weights) > 3
    assert sum(weights.values()) < HEAVIEST_BYTES
