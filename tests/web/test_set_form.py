"""The forms of the page Set, read."""

from dataclasses import replace

import pytest

from fifthwise.book import KeptSetSong, SetOrder
from fifthwise.web.set_form import HEAD as HEAD_PART
from fifthwise.web.set_form import HERE, ORDER, SetFormFault, read_change, read_head, read_here, read_order

HEAD = SetOrder(
    "Evening", "2026-12-05", "letter", (1, 2), (3, 4), (KeptSetSong(7), KeptSetSong(8), KeptSetSong(7, 1))
)
ROWS = {
    "songs": "7,8,7",
    "singer-1": "2",
    "key-1": "Eb",
    "counts-1": "Bram",
    "segue-1": "on",
    "singer-3": "",
    "key-3": "",
}
FIRST, SECOND, THIRD = KeptSetSong(7, 2, "Eb", "Bram", True), KeptSetSong(8), KeptSetSong(7)


@pytest.mark.parametrize(
    ("more", "songs"),
    [
        ({}, (FIRST, SECOND, THIRD)),
        ({"do": "up-2"}, (SECOND, FIRST, THIRD)),
        ({"do": "down-2"}, (FIRST, THIRD, SECOND)),
        ({"do": "up-1"}, (FIRST, SECOND, THIRD)),
        ({"do": "out-1"}, (SECOND, THIRD)),
        ({"do": "save-2"}, (FIRST, SECOND, THIRD)),
        ({"order": "3,1,2"}, (THIRD, FIRST, SECOND)),
    ],
)
def test_the_running_order_is_read_with_what_was_pressed(more, songs):
    """The rows as typed, then one thing done with them; the head stays."""
    found = read_order(ROWS | more, HEAD)
    assert found.songs == songs
    assert (found.name, found.date, found.paper, found.singer_ids) == (
        "Evening",
        "2026-12-05",
        "letter",
        (1, 2),
    )


@pytest.mark.parametrize("songs", ["7,x", "7,,8", "-7", "0", "٣", "7" * 30])
def test_a_form_that_does_not_name_its_songs_is_told(songs):
    """Nothing is guessed."""
    with pytest.raises(SetFormFault, match="does not name its songs"):
        read_order({"songs": songs}, HEAD)


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ({"songs": "7,7,7"}, "other songs than the set"),
        ({"songs": "7,8"}, "other songs than the set"),
        ({"songs": ""}, "other songs than the set"),
        ({"order": "3,3,2"}, "each place once"),
        ({"order": "9,9"}, "each place once"),
        ({"do": "out-99"}, "a place that is not there"),
        ({"do": "up-0"}, "a place that is not there"),
        ({"do": "save"}, "a place that is not there"),
        ({"do": "burn-1"}, "no button"),
    ],
)
def test_a_form_that_no_page_sends_is_refused(more, told):
    """What does not fit the set it was made from is not guessed at."""
    with pytest.raises(SetFormFault, match=told):
        read_order(ROWS | more, HEAD)


@pytest.mark.parametrize("part", [ORDER, HERE, HEAD_PART])
def test_a_form_brings_what_it_was_made_from(part):
    """Written and read, each part of a set is what it was."""
    order = replace(HEAD, songs=(FIRST, SECOND, THIRD))
    assert part.fields(part.made_from(part.written(order))) == part.fields(order)


@pytest.mark.parametrize("text", ["", "a=1&" * 6000])
def test_a_form_that_does_not_bring_it_is_told(text):
    """It says what to do."""
    with pytest.raises(SetFormFault, match=r"made from\. Open the set again"):
        ORDER.made_from(text)


@pytest.mark.parametrize(
    ("do", "row"), [("up-1", 1), ("up-3", 2), ("down-3", 3), ("save-2", 2), ("out-2", 0), ("", 0)]
)
def test_the_row_that_was_changed_is_shown(do, row):
    """At its new place, never beyond an end."""
    assert read_change({"do": do}).shown(3) == row


def test_who_is_there_keeps_its_order():
    """Those who stay stand as before, who comes stands last."""
    found = read_here({"singer-9": "on", "singer-2": "on", "player-4": "on", "version": "3"}, HEAD)
    assert (found.singer_ids, found.player_ids) == ((2, 9), (4,))


def test_the_head_is_read():
    """Name, day and paper; an empty day is none."""
    found = read_head({"name": "Other", "date": "", "paper": "a4"}, HEAD)
    assert (found.name, found.date, found.paper, found.songs) == ("Other", None, "a4", HEAD.songs)


def test_no_other_paper_is_read():
    """It names what can be had."""
    with pytest.raises(SetFormFault, match="Write a4, letter"):
        read_head({"name": "Other", "paper": "wall"}, HEAD)
