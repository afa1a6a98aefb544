"""Ask the workbench for pages over a book of 10,000 songs, and print how long each kind takes.

Run ``python -m bench.web_speed``. The server is the real one, behind its guard, in a process of its own on
one core; this process asks it by HTTP, one request after the other, as a browser does. Beside each kind
stands a page without content through the same stack in the same run: *Cautions*.

Told are the clock, which other work on the machine lengthens, and what the server's threads had of the
processor, which counts. Every song, key and text of a cold kind is asked for the first time.

- Songs: searches by words, chords and filters, as a script asks while somebody types, and as whole pages.
- Song: the page cold and warm, for everyone, a singer and a player; in another key, as a touch asks for it.
- A bar that is touched: the fingerboard with its chord, each in a key of its own.
- Edit: the live page of a text of 60 bars, another at each request.
- Set: a set of 30 songs.
- What a first visit brings over the line, packed as sent: page, styles, scripts and drawings, without fonts.
"""

import gzip
import itertools
import os
import re
import statistics
import sys
import tempfile
from datetime import date
from pathlib import Path
from urllib.parse import urlencode, urljoin

from bench._big_book import SONGS, fill
from bench._server import serving
from bench.chart_speed import made_up_chart
from fifthwise.book import (
    SONG_ORDERS,
    KeptSetSong,
    SetOrder,
    add_player,
    add_set,
    add_singer,
    open_book,
    record_sung,
)
from fifthwise.evening import Player, part_of
from fifthwise.theory import read_key
from fifthwise.voice import read_singer
from tests.book.pop_scan import different_progressions

ASKED = 200  # requests a kind
EMPTY = "/cautions"
WANTED_MS = {  # of the server's processor, 95 of 100 requests
    "search, fragment": 50,
    "search, whole page": 50,
    "song, cold": 60,
    "song for a singer, cold": 60,
    "song for a player, cold": 60,
    "song, warm": 60,
    "song in another key": 40,
    "bar touched": 50,
    "edit, live page": 150,
}
MOST_MB, MOST_KB = 300, 150
SINGERS = (
    read_singer("Maren", usable="F3-D5", comfort="A3-Bb4"),
    read_singer("Tobias", usable="A2-G4", comfort="C3-E4", turns="D4 F4"),
)
PLAYERS = (
    Player("Ines", part_of("fiddle"), "third", "both"),
    Player("Oskar", part_of("guitar"), show="letters", capo=True),
    Player("Lene", part_of("trumpet in Bb"), show="letters"),
)
KEYS = ("C", "G", "D", "A", "E", "F", "Bb", "Eb", "Ab", "Db", "B")
WORDS = ("lamp", "Song 77", "even nowhere", "zzz", "tide", "So", "alight", "Song 9 of")
FILTERS = (
    {"feel": "shuffle"},
    {"low": "90", "high": "110"},
    {"key": "Eb"},
    {"tag": "tag 3"},
    {"tag": "even"},
)
LINKED = re.compile(r'<(?:link[^>]*?href|script[^>]*?src|img[^>]*?src)="([^"]+)"')
IMPORTED = re.compile(r'(?:from|import)\s*"(\./[^"]+)"')


def people(book):
    """Singers, players, what was sung, and a set of 30 songs."""
    singers = [add_singer(book, singer) for singer in SINGERS]
    players = [add_player(book, player) for player in PLAYERS]
    for number in range(1, SONGS, 97):
        record_sung(book, singers[number % 2].id, number, read_key("G"), date(2026, 1, 1 + number % 28))
    add_set(
        book,
        SetOrder(
            "Long night",
            singer_ids=tuple(each.id for each in singers),
            player_ids=tuple(each.id for each in players),
            songs=tuple(KeptSetSong(number, singers[number % 2].id) for number in range(9001, 9031)),
        ),
    )


def searches():
    """What is looked for: words, chords and filters in turn, in each order."""
    words = ({"find": word} for word in WORDS)
    chords = ({"find": text} for text in different_progressions(ASKED))
    both = ({"find": word, **wish} for word, wish in zip(WORDS, itertools.cycle(FILTERS), strict=False))
    kinds = [itertools.cycle(list(kind)) for kind in (words, chords, FILTERS, both)]
    orders = itertools.cycle(SONG_ORDERS)
    for kind in itertools.islice(itertools.cycle(kinds), ASKED):
        yield f"/songs?{urlencode({**next(kind), 'order': next(orders)})}"


def requests():
    """Every kind with what it asks for."""
    # Neighbours in the book have other bars; what repeats in it is 370 apart.
    songs = iter(range(1, 9000, 11))
    plain, sung, played = ([next(songs) for _ in range(ASKED)] for _ in range(3))
    find = list(searches())
    return {
        "search, fragment": [{"path": path, "fragment": True} for path in find],
        "search, whole page": [{"path": path} for path in find],
        "song, cold": [{"path": f"/songs/{number}"} for number in plain],
        "song for a singer, cold": [{"path": f"/songs/{n}?for=singer:{1 + n % 2}"} for n in sung],
        "song for a player, cold": [{"path": f"/songs/{n}?for=player:{1 + n % 3}"} for n in played],
        "song, warm": [{"path": f"/songs/{number}"} for number in plain[-10:] * (ASKED // 10)],
        "song in another key": [
            {"path": f"/songs/{number}?key={key}", "fragment": True}
            for number in plain[: ASKED // len(KEYS) + 1]
            for key in KEYS
        ][:ASKED],
        "bar touched": [
            {"path": f"/songs/{number}/board?key={key}&at=0.{place}.0", "fragment": True}
            for number in plain[: ASKED // len(KEYS) + 1]
            for place, key in enumerate(KEYS)
        ][:ASKED],
        "edit, live page": [
            {"path": "/songs/new/page", "fragment": True, "form": {"text": made_up_chart(n), "version": "0"}}
            for n in range(ASKED)
        ],
        "set of 30 songs": [{"path": "/sets/1"}] * (ASKED // 10),
        "singers": [{"path": "/singers"}] * (ASKED // 10),
        "players": [{"path": "/players"}] * (ASKED // 10),
    }


def at(times, place):
    return statistics.quantiles(times, n=20)[place]


def measure(server):
    """Print each kind's times; gives the 95th percentiles of the processor's."""
    for _ in range(20):
        server.ask(EMPTY)
    told = {}
    for kind, asked in {"empty page": [{"path": EMPTY}] * ASKED, **requests()}.items():
        answers = [server.ask(**each) for each in asked]
        # A search that finds nothing is answered with 200; what cannot be looked for, with 422.
        assert all(answer.status in (200, 422) for answer in answers), kind
        clock, spent = ([getattr(each, name) for each in answers] for name in ("clock_ms", "processor_ms"))
        told[kind] = at(spent, -1)
        beside = statistics.median(spent) / told.setdefault("median", statistics.median(spent))
        wanted = f"wanted {WANTED_MS[kind]}" if kind in WANTED_MS else ""
        print(
            f"{kind:24} clock {at(clock, 9):6.1f} {at(clock, -1):6.1f}   processor {at(spent, 9):5.1f} "
            f"{told[kind]:5.1f} ms   {beside:5.1f} times the empty page   {wanted}",
            flush=True,
        )
    return told


def weight_kb(server, path):
    """What a first visit to a page brings, packed, without fonts."""
    waiting, seen, total = [path], set(), 0
    while waiting:
        here = waiting.pop()
        if here in seen or here.endswith(".woff2"):
            continue
        seen.add(here)
        answer = server.ask(here)
        total += len(answer.sent)
        text = answer.sent.decode("latin-1") if answer.sent[:2] != b"\x1f\x8b" else _unpacked(answer.sent)
        found = IMPORTED.findall(text) if here.endswith(".js") else LINKED.findall(text)
        waiting += [urljoin(here, other) for other in found]
    return total / 1000


def _unpacked(sent):
    return gzip.decompress(sent).decode()


def main():
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "bench.sqlite"
        with open_book(place) as book:
            fill(book)
            people(book)
        with serving(place) as server:
            print(f"{SONGS} songs; load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
            print(f"{'':24} clock  p50    p95   processor p50   p95")
            at_95 = measure(server)
            weights = {
                path: weight_kb(server, path)
                for path in (
                    "/songs",
                    "/songs/1",
                    "/songs/1/edit",
                    "/sets",
                    "/sets/1",
                    "/singers",
                    "/players",
                )
            }
            now, most = server.memory_mb(), server.memory_mb("VmHWM")
    for path, kb in weights.items():
        print(f"{path:16} {kb:5.0f} kB (wanted {MOST_KB})")
    print(f"memory {now:.0f} MB, at most {most:.0f} MB (wanted {MOST_MB})")
    print(f"load {os.getloadavg()[0]:.1f}")
    fast = all(at_95[kind] <= wanted for kind, wanted in WANTED_MS.items())
    return fast and max(weights.values()) <= MOST_KB and most <= MOST_MB


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
