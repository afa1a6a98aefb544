"""Evenings, singers and players written: what is read again is what was written."""

from dataclasses import replace

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.evening import (
    Evening,
    EveningFaults,
    SetSong,
    read_evening,
    read_players,
    read_singers,
    write_evening,
    write_players,
    write_singers,
)
from fifthwise.voice import read_singer, write_singer
from tests.evening.test_read import SOUND
from tests.strategies import evenings, players, singers

LAW = settings(deadline=None)


def placeless(evening):
    """An evening without where its songs stood in a file."""
    return replace(evening, songs=tuple(replace(song, line=0) for song in evening.songs))


@LAW
@given(evenings())
def test_an_evening_is_read_as_it_was_written(evening):
    """There and back, whatever people, songs and evenings are called."""
    assert placeless(read_evening(write_evening(evening), unfinished=not evening.songs)) == evening


@LAW
@given(st.lists(singers(), max_size=4, unique_by=lambda singer: singer.name).map(tuple))
def test_singers_are_read_as_they_were_written(people):
    """There and back, in their order; nobody is written too."""
    assert read_singers(write_singers(people)) == people


@LAW
@given(st.lists(players(), max_size=4, unique_by=lambda player: player.name).map(tuple))
def test_players_are_read_as_they_were_written(people):
    """There and back, in their order; nobody is written too."""
    assert read_players(write_players(people)) == people


@LAW
@given(singers())
def test_a_singers_fields_say_the_singer(singer):
    """The ranges and turns as typed are read as the same singer."""
    assert read_singer(singer.name, **write_singer(singer)) == singer


@LAW
@given(evenings())
def test_another_reader_of_yaml_finds_the_same_texts(evening):
    """Names that look like a number, a date or a yes are texts to a reader that knows such types."""
    found = yaml.safe_load(write_evening(evening))
    assert found["evening"] == evening.name
    assert tuple(found.get("singers", {})) == tuple(singer.name for singer in evening.singers)
    assert [(song["chart"], song.get("singer"), song.get("segue", False)) for song in found["songs"]] == [
        (song.chart, song.singer, song.segue) for song in evening.songs
    ]


def test_an_evening_is_written_as_people_write_it():
    """One line a singer, a player and a song; only what needs quotes has them."""
    text = write_evening(read_evening(SOUND))
    assert text == (
        "evening: The Pier Lamp dance\n"
        "date: 2026-12-05\n"
        "paper: a4\n"
        "singers:\n"
        "  Wenke: {usable: F3-D5, comfort: A3-Bb4}\n"
        "  Jorun: {usable: A2-G4, comfort: C3-E4, turns: D4 F4}\n"
        "players:\n"
        "  Isa: {instrument: violin, level: third}\n"
        "  Ole: {instrument: guitar, capo: yes}\n"
        "  Lotte: {instrument: trumpet in Bb}\n"
        "songs:\n"
        "- {chart: one.chart.md, singer: Wenke}\n"
        "- {chart: two.chart.md, singer: Jorun, key: Bb, counts-in: Isa, segue: yes}\n"
        "- {chart: three.chart.md}\n"
    )


def test_an_evening_without_songs_is_read_only_as_unfinished():
    """A set that is being built goes out and comes back; a command still asks for songs."""
    empty = Evening("Later", None, (), (), ())
    assert read_evening(write_evening(empty), unfinished=True) == empty
    with pytest.raises(EveningFaults, match="there are no songs yet"):
        read_evening(write_evening(empty))
    with pytest.raises(EveningFaults, match="the songs must be a list"):
        read_evening("evening: x\nsongs: 3\n", unfinished=True)


def test_a_singer_who_is_not_there_is_told_though_nobody_is():
    """An empty list of singers names nobody."""
    with pytest.raises(EveningFaults, match="no singer is named 'Wenke'"):
        read_evening("evening: x\nsingers: {}\nsongs:\n- {chart: a, singer: Wenke}\n")


@pytest.mark.parametrize(
    ("read", "text", "words"),
    [
        (read_singers, "", "this is no list of singers. Write lines 'Name:"),
        (read_singers, "Ada: {usable: F3-D5}\nBo: {usable: F3-D5, comfort: x}\n", "missing.*'x' is no range"),
        (read_singers, "Ada: {usable: F3-D5, comfort: A3-B4}\n' Ada ': {}", "'Ada' is given twice"),
        (read_players, "- x\n", "this is no list of players"),
        (
            read_players,
            "Ole: {instrument: voilin}\nIsa: {}\n",
            "Did you mean 'violin'.*Isa has no instrument",
        ),
        (read_players, "'': {instrument: violin}\n", "a player has no name"),
    ],
)
def test_everything_wrong_with_a_file_of_people_is_told_at_once(read, text, words):
    """Each fault names the file that it is in."""
    with pytest.raises(EveningFaults, match=f"(?s)people.yaml:.*{words}"):
        read(text, "people.yaml")


def test_a_song_is_written_with_what_it_says_alone():
    """What is not said is left out."""
    text = write_evening(Evening("x", None, (), (), (SetSong("7", key="F# minor"),)))
    assert text.endswith('songs:\n- {chart: "7", key: F# minor}\n')
