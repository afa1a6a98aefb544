"""Sets kept: there and back, in order, one winner, and the evening that the stage plans."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fifthwise.book import (
    LONGEST_SET,
    Conflict,
    KeptSetSong,
    NameFault,
    NoSuchPlayer,
    NoSuchSet,
    NoSuchSinger,
    NoSuchSong,
    SetFault,
    SetOrder,
    SetRow,
    StandsInSets,
    add_player,
    add_set,
    add_singer,
    add_song,
    evening_of,
    kept_set,
    remove_set,
    remove_song,
    save_set,
    save_song,
    sets,
    song,
    songs,
)
from fifthwise.evening import Evening, SetSong, read_evening, write_evening
from fifthwise.stage import plan
from tests.book.people import a_player, a_singer, winners_at_once
from tests.book.texts import tune
from tests.strategies import keys


@pytest.fixture
def full(book):
    """A set of everything, in a book with two of each."""
    first, second = add_song(book, tune()).id, add_song(book, tune("Keel")).id
    maren, tobias = (add_singer(book, a_singer(name)).id for name in ("Maren", "Tobias"))
    ines, oskar = add_player(book, a_player()).id, add_player(book, a_player("Oskar", "guitar", capo=True)).id
    running = (
        KeptSetSong(second, maren, "Bb", "Ines", True),
        KeptSetSong(first),
        KeptSetSong(second, tobias, "F♯"),
    )
    return add_set(
        book, SetOrder("The Harbour Lamp", "2026-12-05", "letter", (tobias,), (oskar, ines), running)
    )


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_a_set_is_read_as_kept(book, full, data):
    """Any order of what the book has comes back, saved over any other; a song may stand twice."""
    order = full.order
    people = st.sampled_from([None, *order.singer_ids])
    one_song = st.builds(
        KeptSetSong,
        st.sampled_from([each.song_id for each in order.songs]),
        people,
        st.none() | keys().map(str),
        st.sampled_from([None, "Ines", "שירה: #1"]),
        st.booleans(),
    )
    new = SetOrder(
        data.draw(st.sampled_from(["yes", "Ölzeug", "🎻"])),
        data.draw(st.sampled_from([None, "first Sunday in May", "2027-02-28"])),
        data.draw(st.sampled_from(["a4", "letter"])),
        data.draw(st.sampled_from([(), order.singer_ids])),
        tuple(data.draw(st.permutations(order.player_ids)))[: data.draw(st.integers(0, 2))],
        tuple(data.draw(st.lists(one_song, max_size=6))),
    )
    before = kept_set(book, full.id)
    kept = save_set(book, full.id, new, before.version)
    assert (kept.order, kept.version) == (new, before.version + 1)
    assert kept_set(book, full.id) == kept


def test_sets_are_listed_newest_day_first(book):
    """Then by name; those whose date is words or none come last."""
    row = add_song(book, tune()).id
    for name, date in (
        ("b", None),
        ("B2", "in May"),
        ("old", "2025-01-01"),
        ("é", "2026-01-01"),
        ("F", "2026-01-01"),
    ):
        add_set(book, SetOrder(name, date))
    kept = add_set(book, SetOrder("a", songs=(KeptSetSong(row), KeptSetSong(row))))
    assert [each.name for each in sets(book)] == ["é", "F", "old", "a", "b", "B2"]
    assert sets(book)[3] == SetRow(kept.id, 1, "a", None, 2)
    assert [each.song_count for each in sets(book)] == [0, 0, 0, 2, 0, 0]


def test_texts_are_kept_without_blanks_and_nobody_is_there_twice(book, full):
    """An empty date, key or counting in is none."""
    (maren,) = full.order.singer_ids
    running = (
        replace(full.order.songs[0], key="  ", counts_in=" "),
        KeptSetSong(full.order.songs[1].song_id, key=" F#  minor"),
    )
    order = SetOrder(" Night ", " ", "a4", (maren, maren), (), running)
    kept = add_set(book, order).order
    assert (kept.name, kept.date, kept.singer_ids) == ("Night", None, (maren,))
    assert [(each.key, each.counts_in) for each in kept.songs] == [(None, None), ("F# minor", None)]


@pytest.mark.parametrize(
    ("changes", "fault", "words"),
    [
        ({"name": " "}, NameFault, "set: the name is empty"),
        ({"date": "2026-02-30"}, SetFault, "'Night': there is no day '2026-02-30'. Write it as"),
        ({"date": "a\nb"}, NameFault, "'Night', date: .*control character"),
        ({"name": "a\u202eb"}, NameFault, r"set: the name holds the invisible sign U\+202E"),
        ({"paper": "a5"}, SetFault, "'a5' is no paper. Write a4, letter"),
        ({"songs": (KeptSetSong(1), KeptSetSong(1, key="H"))}, SetFault, "'Night', song 2: 'H' is no key"),
        ({"songs": (KeptSetSong(1, counts_in="x" * 101),)}, NameFault, "song 1, counts in: .*101 characters"),
        ({"songs": (KeptSetSong(1),) * (LONGEST_SET + 1)}, SetFault, "there are 1001 songs. A set may"),
        ({"player_ids": tuple(range(1001))}, SetFault, "there are 1001 players"),
        ({"songs": (KeptSetSong(99),)}, NoSuchSong, "there is no song 99"),
        ({"songs": (KeptSetSong(10**30),)}, NoSuchSong, "there is no song 1000"),
        ({"songs": (KeptSetSong(1, 99),)}, NoSuchSinger, "there is no singer 99"),
        ({"singer_ids": (98,)}, NoSuchSinger, "there is no singer 98"),
        ({"player_ids": (97,)}, NoSuchPlayer, "there is no player 97"),
    ],
)  # fmt: skip
def test_a_set_with_what_no_evening_can_have_is_refused(book, changes, fault, words):
    """Neither a new set nor a change is kept, in no part."""
    assert add_song(book, tune()).id == 1
    kept = add_set(book, SetOrder("Night", "in May", songs=(KeptSetSong(1),)))
    wrong = replace(SetOrder("Night"), **changes)
    for keep in (lambda: add_set(book, wrong), lambda: save_set(book, kept.id, wrong, 1)):
        with pytest.raises(fault, match=words):
            keep()
    assert kept_set(book, kept.id) == kept
    assert len(sets(book)) == 1


def test_a_stale_version_is_refused(book, full):
    """Neither a save nor a removal goes over what somebody else has saved."""
    newest = save_set(book, full.id, replace(full.order, name="Lamp"), 1)
    told = "'Lamp': the set has been changed meanwhile, it is now version 2. Look at it again"
    with pytest.raises(Conflict, match=told):
        save_set(book, full.id, full.order, 1)
    with pytest.raises(Conflict, match=told):
        remove_set(book, full.id, 1)
    assert kept_set(book, full.id) == newest


def test_what_is_not_there_is_told(book):
    """Whatever number was asked for."""
    asks = (
        kept_set,
        evening_of,
        lambda b, i: save_set(b, i, SetOrder("x"), 1),
        lambda b, i: remove_set(b, i, 1),
    )
    for number in (1, 0, -1, 10**30):
        for ask in asks:
            with pytest.raises(NoSuchSet, match=f"there is no set {number}. Look for it in the list of sets"):
                ask(book, number)


def test_of_several_who_save_at_once_one_wins(book, full):
    """The set is the winner's whole: name and running order."""
    first = full.order.songs[0]

    def save(number):
        running = (first,) * (number + 1)
        save_set(book, full.id, replace(full.order, name=f"Night {number}", songs=running), 1)

    (winner,) = winners_at_once(save)
    kept = kept_set(book, full.id)
    assert (kept.version, kept.order.name, len(kept.order.songs)) == (2, f"Night {winner}", winner + 1)


def test_a_set_goes_alone(book, full):
    """Its songs, singers and players stay, and its number is not given again."""
    remove_set(book, full.id, 1)
    assert sets(book) == ()
    assert len(songs(book)) == 2
    assert add_set(book, full.order).id > full.id


def test_a_song_that_stands_in_a_set_stays(book, full):
    """The fault names the sets; out of them, the song can be removed, with all its versions."""
    number = full.order.songs[0].song_id
    with pytest.raises(
        StandsInSets, match=r"'Keel': the song stands in 'The Harbour Lamp'. Take it out"
    ) as caught:
        remove_song(book, number, 1)
    assert caught.value.sets == ("The Harbour Lamp",)
    save_set(book, full.id, replace(full.order, songs=()), 1)
    save_song(book, number, tune("Keelson"), 1)
    with pytest.raises(Conflict, match="'Keelson': the song has been changed meanwhile, it is now version 2"):
        remove_song(book, number, 1)
    remove_song(book, number, 2)
    with pytest.raises(NoSuchSong, match="there is no song"):
        song(book, number)
    assert add_song(book, tune("Next")).id > number


def test_an_evening_has_all_that_the_set_names(book, full):
    """Whoever only sings comes after those who are there; songs are named by their numbers."""
    evening, charts = evening_of(book, full.id)
    first, second = sorted({each.song_id for each in full.order.songs})
    assert evening == Evening(
        "The Harbour Lamp",
        "2026-12-05",
        (a_singer("Tobias"), a_singer("Maren")),
        (a_player("Oskar", "guitar", capo=True), a_player()),
        (
            SetSong(str(second), "Maren", "Bb", "Ines", True, 1),
            SetSong(str(first), line=2),
            SetSong(str(second), "Tobias", "F♯", line=3),
        ),
        "letter",
    )
    assert {name: chart.title for name, chart in charts.items()} == {
        str(first): "Slack Water",
        str(second): "Keel",
    }


def test_the_stage_plans_a_kept_set(book, full):
    """Keys that were called are tonight's; the written evening is the same one."""
    evening, charts = evening_of(book, full.id)
    assert [call.chart.key.short for call in plan(evening, charts).calls] == ["Bb", "G", "F#"]
    written = read_evening(write_evening(evening))
    assert [replace(each, line=0) for each in written.songs] == [
        replace(each, line=0) for each in evening.songs
    ]
    assert (written.singers, written.players) == (evening.singers, evening.players)


def test_an_empty_set_is_an_evening_without_songs(book):
    """A set that is being built can be looked at."""
    evening, charts = evening_of(book, add_set(book, SetOrder("Later")).id)
    assert (evening, charts) == (Evening("Later", None, (), (), ()), {})
