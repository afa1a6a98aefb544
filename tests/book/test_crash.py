"""Saves that were acknowledged outlive a process that is killed at any moment."""

import os
import random
import subprocess
import sys
import time

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
    versions,
)
from tests.book.texts import tune

KILLS = 10
# Saves for ever, and says each save's version once the book has acknowledged it.
SAVER = """
import sys
from fifthwise.book import open_book, save_song, song
book = open_book(sys.argv[1])
kept = song(book, 1)
text, version = kept.text, kept.row.version
while True:
    version = save_song(book, 1, f"{text}<!-- {version + 1} -->\\n", version).version
    print(version, flush=True)
"""

# The same of a set, whose songs stand in rows of their own: it gets one more song with each save.
SET_SAVER = """
import sys
from dataclasses import replace
from fifthwise.book import KeptSetSong, kept_set, open_book, save_set
book = open_book(sys.argv[1])
kept = kept_set(book, 1)
while True:
    order = replace(kept.order, name=f"Night {kept.version + 1}", songs=(*kept.order.songs, KeptSetSong(1)))
    kept = save_set(book, 1, order, kept.version)
    print(kept.version, flush=True)
"""


@pytest.mark.skipif(os.name == "nt", reason="there is no SIGKILL")
def test_no_acknowledged_save_is_lost_to_a_kill(tmp_path):
    """After each kill the book opens, and has every version that was acknowledged, whole and in order."""
    path = tmp_path / "killed.book"
    chance = random.Random(3)
    with open_book(path) as book:
        add_song(book, tune())
    total = 1
    for _ in range(KILLS):
        acknowledged = _killed_saver(path, chance.uniform(0.02, 0.2))
        with open_book(path) as book:
            kept = versions(book, 1)
            assert song(book, 1).text == kept[-1].text
        # The save under way at the kill may have been kept without having been said.
        assert acknowledged <= kept[-1].version <= acknowledged + 1
        assert [version.version for version in kept] == list(range(1, len(kept) + 1))
        assert all(version.text.endswith(f"<!-- {version.version} -->\n") for version in kept[1:])
        assert acknowledged > total
        total = kept[-1].version


@pytest.mark.skipif(os.name == "nt", reason="there is no SIGKILL")
def test_no_acknowledged_set_is_lost_to_a_kill(tmp_path):
    """After each kill the set is the one that was acknowledged or the next, never half of each."""
    path = tmp_path / "killed.book"
    chance = random.Random(4)
    with open_book(path) as book:
        add_set(book, SetOrder("Night 1", songs=(KeptSetSong(add_song(book, tune()).id),)))
    total = 1
    for _ in range(KILLS):
        acknowledged = _killed_saver(path, chance.uniform(0.02, 0.1), SET_SAVER)
        with open_book(path) as book:
            kept = kept_set(book, 1)
            assert check_book(book) == ()
        assert acknowledged <= kept.version <= acknowledged + 1
        assert kept.order.name == f"Night {kept.version}"
        assert len(kept.order.songs) == kept.version
        assert acknowledged > total
        total = kept.version


def _killed_saver(path, seconds, saver_code=SAVER):
    """The last version that a saver had acknowledged when it was killed, some time after its first."""
    with subprocess.Popen(
        [sys.executable, "-c", saver_code, str(path)], stdout=subprocess.PIPE, text=True
    ) as saver:
        first = saver.stdout.readline()
        time.sleep(seconds)
        saver.kill()
        rest = saver.stdout.read()
    # What comes after the last line's end was cut off by the kill.
    return int((first + rest).rpartition("\n")[0].split("\n")[-1])
