"""The workbench served on this computer, over a book that holds the demo's scenario."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn

from fifthwise.book import Book, KeptSetSong, SetOrder, add_player, add_set, add_singer, add_song, open_book
from fifthwise.evening import read_evening
from fifthwise.web import make_app
from fifthwise.web.guard import GuardSettings, apply_guard, server_options

DEMO = Path(__file__).parents[3] / "demo"
START_S = 20


def fill(book: Book) -> None:
    """Put the demo into a book: song 1 is "Black Buoy", singer 1 Maren, set 1 the demo's.

    Songs stand as their files are named. Set 2 has no song yet.
    """
    songs = {
        file.name: add_song(book, file.read_text(encoding="utf-8")).id
        for file in sorted(DEMO.glob("*.chart.md"))
    }
    evening = read_evening((DEMO / "harbour-lamp.set.yaml").read_text(encoding="utf-8"))
    singers = {singer.name: add_singer(book, singer).id for singer in evening.singers}
    players = [add_player(book, player).id for player in evening.players]
    order = [
        KeptSetSong(songs[song.chart], singers.get(song.singer or ""), song.key, song.counts_in, song.segue)
        for song in evening.songs
    ]
    add_set(book, SetOrder(evening.name, evening.date, "a4", (*singers.values(),), (*players,), (*order,)))
    add_set(book, SetOrder("An evening to come"))


@contextmanager
def served(file: Path) -> Iterator[str]:
    """Serve a book from a thread of its own; gives the address."""
    with open_book(file) as book:
        app = apply_guard(make_app(book), GuardSettings())
        # Without the log's own settings: they are the whole process's, and so the other tests' too.
        options = {**server_options(), "log_config": None, "timeout_graceful_shutdown": 2}
        server = uvicorn.Server(uvicorn.Config(app, host="127.0.0.1", port=0, loop="asyncio", **options))
        started = threading.Event()
        startup = server.startup

        async def tell_started(*args, **named):
            await startup(*args, **named)
            started.set()

        server.startup = tell_started
        thread = threading.Thread(target=server.run)
        thread.start()
        try:
            assert started.wait(START_S), "the server did not start"
            port = server.servers[0].sockets[0].getsockname()[1]
            yield f"http://127.0.0.1:{port}"
        finally:
            server.should_exit = True
            thread.join()
