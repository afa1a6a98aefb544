"""A workbench that is killed while two people save: what was answered is kept."""

import random
import re
import threading
import time
from dataclasses import dataclass, field

import httpx2
import pytest

from fifthwise.book import (
    KeptSetSong,
    SetOrder,
    add_set,
    add_song,
    check_book,
    kept_set,
    open_book,
    song,
    songs,
)
from tests.book.texts import tune
from tests.serving import BOOK, serving

ROUNDS = 12
END = "<!-- end -->\n"


@dataclass
class Acknowledged:
    """What was answered with 303."""

    songs: dict[int, str] = field(default_factory=dict)
    version: int = 1
    text: str = ""
    in_set: int = 1
    count: int = 0


def text_of(title):
    """A chart whose last line shows that it is whole."""
    return tune(title, "1 4 | 5 1\n" * 40 + END.strip())


def save_songs(visitor, seen, chance):
    """Save new songs, and song 1 again and again, until the server is gone."""
    while True:
        text = text_of(f"Tide {chance.getrandbits(60)}")
        answer = visitor.post("/songs/new", data={"text": text, "version": 0})
        assert answer.status_code == 303
        seen.songs[int(answer.headers["location"].rpartition("/")[2])] = text
        answer = visitor.post("/songs/1/edit", data={"text": text, "version": seen.version})
        assert answer.status_code == 303
        seen.version, seen.text = seen.version + 1, text
        seen.count += 2


def fill_set(visitor, seen, _chance):
    """Put song 1 into set 1 again and again, until the server is gone."""
    while True:
        answer = visitor.post("/sets/1/songs", data={"song_id": 1})
        assert answer.status_code == 303
        seen.in_set = int(re.search(r"row=(\d+)", answer.headers["location"])[1])
        seen.count += 1


def until_killed(work, served, seen, chance, others_faults):
    """Do work until the connection breaks; anything else that ends it is a fault."""
    try:
        with served.visitor() as visitor:
            work(visitor, seen, chance)
    except httpx2.TransportError:
        pass
    except BaseException as fault:
        others_faults.append(fault)


@pytest.fixture
def folder(tmp_path):
    """A book with song 1 and set 1, which has that song once."""
    with open_book(tmp_path / BOOK) as book:
        add_song(book, text_of("Slack Water"))
        add_set(book, SetOrder("Night", songs=(KeptSetSong(1),)))
    return tmp_path


def save_until_killed(folder, seen, seconds, chance):
    """Two people save at once until the server is killed, some time after the first answer."""
    faults = []
    with serving(folder) as served:
        before = seen.count
        people = [
            threading.Thread(target=until_killed, args=(work, served, seen, chance, faults))
            for work in (save_songs, fill_set)
        ]
        for person in people:
            person.start()
        while seen.count == before and not faults:
            time.sleep(0.001)
        time.sleep(seconds)
        served.run.kill()
        for person in people:
            person.join()
        served.run.wait()
    assert faults == []


def look_through(folder, seen):
    """Hold the book against what was answered; the save that was under way may be kept too."""
    with open_book(folder / BOOK) as book:
        assert check_book(book) == ()
        rows = songs(book)
        texts = {row.id: song(book, row.id).text for row in rows}
        version, in_set = song(book, 1).row.version, len(kept_set(book, 1).order.songs)
    assert {number: texts.get(number) for number in seen.songs} == seen.songs
    assert all(text.endswith(END) for text in texts.values())
    assert seen.version <= version <= seen.version + 1
    assert version > seen.version or not seen.text or texts[1] == seen.text
    assert seen.in_set <= in_set <= seen.in_set + 1
    assert len(set(texts) - set(seen.songs) - {1}) <= 1
    seen.songs |= {number: text for number, text in texts.items() if number != 1}
    seen.version, seen.text, seen.in_set = version, texts[1], in_set


def test_no_answered_save_is_lost_to_a_kill(folder):
    """Killed at any moment, the book has every song, version and set that was answered, each whole."""
    chance = random.Random(20261205)
    seen = Acknowledged()
    for _ in range(ROUNDS):
        save_until_killed(folder, seen, chance.uniform(0.0, 0.8), chance)
        look_through(folder, seen)
    assert seen.count > 100
    with serving(folder) as served, served.visitor() as visitor:
        page = visitor.get("/songs/1/edit").text
    assert seen.text.partition("\n")[2].partition("\n")[0] in page
