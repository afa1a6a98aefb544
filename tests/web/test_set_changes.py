"""What is changed in a set: laws of the pure functions."""

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from fifthwise.book import KeptSetSong, SetOrder
from fifthwise.web.set_changes import arranged, moved, put_in, taken_out, twins, unlike

songs = st.builds(
    KeptSetSong,
    st.integers(1, 5),
    st.none() | st.integers(1, 3),
    st.none() | st.sampled_from(["C", "Eb"]),
    st.none() | st.sampled_from(["Bram", "Ines"]),
    st.booleans(),
)
orders = st.lists(songs, max_size=8).map(lambda found: SetOrder("Evening", songs=tuple(found)))
places = st.integers(-2, 11)


@given(orders, places, places)
def test_a_move_keeps_every_song(order, place, to):
    """Nothing is lost or doubled, wherever a song goes."""
    assert Counter(moved(order, place, to).songs) == Counter(order.songs)


@given(orders, st.data())
def test_a_song_is_where_it_was_moved(order, data):
    """A place within the order is where it stands then; the others keep their order."""
    order = put_in(order, KeptSetSong(9))
    last = len(order.songs)
    to = data.draw(st.integers(1, last))
    found = moved(order, last, to)
    assert found.songs[to - 1] == KeptSetSong(9)
    assert taken_out(found, to).songs == order.songs[:-1]


@given(orders, st.data())
def test_a_move_there_and_back_changes_nothing(order, data):
    """The way back leads to the order before."""
    order = put_in(order, KeptSetSong(9))
    ends = st.integers(1, len(order.songs))
    place, to = data.draw(ends), data.draw(ends)
    assert moved(moved(order, place, to), to, place) == order


@given(orders, st.data())
def test_an_arrangement_takes_each_place_once(order, data):
    """Songs stand as their former places were named."""
    named = data.draw(st.permutations(range(1, len(order.songs) + 1)))
    assert [order.songs.index(song) for song in arranged(order, named).songs] == [
        order.songs.index(order.songs[place - 1]) for place in named
    ]


@given(orders, st.lists(places, max_size=9))
def test_no_arrangement_loses_a_song(order, named):
    """What does not name each place once changes nothing."""
    found = arranged(order, named)
    assert Counter(found.songs) == Counter(order.songs)
    if sorted(named) != list(range(1, len(order.songs) + 1)):
        assert found == order


@given(orders, places)
def test_one_song_is_taken_out(order, place):
    """One less, or the same where there is no such place."""
    there = 1 <= place <= len(order.songs)
    assert len(taken_out(order, place).songs) == len(order.songs) - there


@given(orders)
def test_twins_tell_every_song_of_a_set_apart(order):
    """No two places have the same one, and each names its song."""
    found = twins(order.songs)
    assert len(set(found)) == len(order.songs)
    assert [twin.song_id for twin in found] == [song.song_id for song in order.songs]


@given(orders, st.data())
def test_an_order_is_unlike_only_where_a_song_differs(order, data):
    """A set is like itself; a changed song is the one that is told."""
    assert unlike(order, order) == ()
    order = put_in(order, KeptSetSong(9))
    place = data.draw(st.integers(1, len(order.songs)))
    songs = list(order.songs)
    songs[place - 1] = KeptSetSong(songs[place - 1].song_id, counts_in="Odile")
    mine = SetOrder("Evening", songs=tuple(songs))
    assert unlike(mine, order) == (songs[place - 1],)
