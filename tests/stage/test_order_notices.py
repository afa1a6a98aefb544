"""What is told of a running order. The limits are common practice, no source."""

import pytest

from fifthwise.chart import parse
from fifthwise.evening import read_evening
from fifthwise.stage import order_notices, plan
from fifthwise.stage.order_notices import SLOW_BPM, WHOLE

SONG = """---
title: {title}
key: {key}
tempo: {tempo}
feel: {feel}
lowest: 5,
highest: 1'
---
1 | 4 | 5 | 1
"""


def told(*songs, players=""):
    """The notices of an evening of (title, key, tempo, feel, more fields of the song)."""
    charts = {
        title: parse(SONG.format(title=title, key=key, tempo=tempo, feel=feel))
        for title, key, tempo, feel, _ in songs
    }
    lines = "\n".join(f"  - {{chart: {title}{more}}}" for title, _, _, _, more in songs)
    singers = "singers:\n  Wenke: {usable: F3-D5, comfort: A3-Bb4}\n  Odd: {usable: F2-D4, comfort: A2-Bb3}"
    text = f"evening: Small night\n{singers}\n{players}\nsongs:\n{lines}\n"
    return [
        (notice.number, notice.words, notice.mend)
        for notice in order_notices(plan(read_evening(text), charts))
    ]


def apart(count, **changes):
    """Songs that give no notice: each in its own key, tempo and feel, but for what is changed."""
    keys, feels = ("C", "D", "E", "F", "G", "A"), ("straight", "shuffle", "waltz", "train", "ballad", "stomp")
    return [
        (
            f"Song {place + 1}",
            changes.get("key") or keys[place % 6],
            changes.get("tempo") or 90 + 15 * place,
            feels[place % 6],
            changes.get("more", ""),
        )
        for place in range(count)
    ]


def test_an_order_with_enough_change_is_quiet():
    """Nothing is told for the sake of telling."""
    assert told(*apart(6)) == []


@pytest.mark.parametrize(("tempo", "count"), [(SLOW_BPM, 1), (SLOW_BPM + 1, 0)])
def test_three_slow_songs_in_a_row_are_told_at_the_third(tempo, count):
    """With a quicker one that could go between."""
    found = told(*apart(3, tempo=tempo), ("Reel", "A", 120, "train", ""))
    assert len(found) == count
    if count:
        assert found[0] == (3, "Three slow songs in a row", "Put 'Reel' (120) before it")


def test_one_key_all_night_is_told_once():
    """Of the whole order, not of each song."""
    assert [(n, w) for n, w, _ in told(*apart(4, key="G"))] == [(WHOLE, "Every song is in G")]


def test_one_key_three_times_is_told_at_the_third():
    """The songs around it do not matter."""
    found = told(*apart(3, key="G"), ("Last", "D", 200, "stomp", ""))
    assert [(n, w) for n, w, _ in found] == [(3, "Three songs in a row in G")]


def test_a_singer_three_times_in_a_row_is_told_where_another_could_sing():
    """Where only one sings at all, it is no news."""
    one = apart(3, more=", singer: Wenke, key: C")
    keys = [(t, k, b, f, m.replace("key: C", f"key: {k}")) for t, k, b, f, m in one]
    assert told(*keys) == []
    found = told(*keys, ("Last", "A", 200, "stomp", ", singer: Odd, key: A"))
    assert [(n, w) for n, w, _ in found] == [(3, "Wenke sings three in a row")]


@pytest.mark.parametrize(("tempo", "count"), [(100, 1), (102, 1), (104, 0)])
def test_the_same_tempo_and_feel_twice_is_told(tempo, count):
    """Three in a hundred beats a minute are heard as the same."""
    found = told(("Rope", "C", 100, "train", ""), ("Walk", "D", tempo, "train", ""))
    assert len(found) == count


def test_a_capo_that_moves_without_a_stop_is_told():
    """G is an open shape; B is A's shape two frets up (common practice, no source)."""
    songs = [("Rope", "G", 90, "train", ", segue: yes"), ("Walk", "B", 120, "waltz", "")]
    players = "players:\n  Bram: {instrument: guitar, capo: yes}"
    assert [(n, w) for n, w, _ in told(*songs, players=players)] == [
        (2, "Bram moves the capo from none to 2 without a stop")
    ]
    assert told(*songs, players="players:\n  Bram: {instrument: guitar}") == []
