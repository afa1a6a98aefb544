"""Two changes of one set put together: laws of the pure function."""

from dataclasses import replace

from hypothesis import assume, example, given
from hypothesis import strategies as st

from fifthwise.book import KeptSetSong, SetOrder
from fifthwise.web.set_changes import moved, put_in, taken_out
from fifthwise.web.set_merge import Clash, merge

keys = st.none() | st.sampled_from(["C", "Eb"])
songs = st.builds(KeptSetSong, st.integers(1, 6), st.none() | st.integers(1, 3), keys)
people = st.lists(st.integers(1, 4), max_size=3, unique=True).map(tuple)
orders = st.builds(
    SetOrder,
    st.sampled_from(["Evening", "Quay"]),
    singer_ids=people,
    songs=st.lists(songs, max_size=6).map(tuple),
)
BASE = SetOrder("Evening", songs=(KeptSetSong(1), KeptSetSong(2), KeptSetSong(3), KeptSetSong(4)))


@given(orders, orders)
def test_who_is_alone_is_kept(base, changed):
    """Where one changed nothing, what the other has is kept whole, and nothing clashes."""
    assert merge(base, base, changed).order == changed
    mine = merge(base, changed, base)
    assert mine.order == replace(changed, singer_ids=mine.order.singer_ids)
    assert set(mine.order.singer_ids) == set(changed.singer_ids)
    assert mine.clashes == ()


@given(orders, orders)
def test_the_same_change_is_no_clash(base, changed):
    """Two who want the same have it."""
    found = merge(base, changed, changed)
    assert (found.order, found.clashes) == (changed, ())


@given(orders, orders, orders)
def test_no_value_comes_from_nowhere(base, mine, theirs):
    """Each song is there as often as one of the two has it, and a clash has two values."""
    found = merge(base, mine, theirs)
    for song_id in range(1, 7):
        count, one, other = (
            sum(song.song_id == song_id for song in order.songs) for order in (found.order, mine, theirs)
        )
        assert count in (one, other)
    assert all(clash.mine != clash.theirs for clash in found.clashes)


@given(orders, orders, orders)
@example(
    replace(BASE, songs=BASE.songs[:2]),
    replace(BASE, songs=(KeptSetSong(2), KeptSetSong(1), KeptSetSong(3))),
    replace(BASE, songs=(KeptSetSong(3), KeptSetSong(1), KeptSetSong(3, key="C"), KeptSetSong(2))),
)
def test_in_a_clash_theirs_stands(base, mine, theirs):
    """What is told as theirs is what is kept."""
    found = merge(base, mine, theirs)
    for clash in found.clashes:
        if clash.what == "name":
            assert found.order.name == theirs.name
        if clash.what == "rows":
            rows = tuple(song for song in found.order.songs if song.song_id == clash.song_id)
            assert rows == clash.theirs


@given(st.integers(1, 4), st.integers(1, 4), st.integers(1, 4))
def test_a_move_and_a_change_are_both_kept(place, to, changed):
    """A song is moved by one while a song gets its key from the other."""
    rows = list(BASE.songs)
    rows[changed - 1] = replace(rows[changed - 1], key="Eb")
    theirs = replace(BASE, songs=tuple(rows))
    found = merge(BASE, moved(BASE, place, to), theirs)
    assert (found.order, found.clashes) == (moved(theirs, place, to), ())


@given(st.integers(1, 4), st.integers(1, 4))
def test_one_song_goes_and_another_comes(out, place):
    """One takes a song out, the other puts one in at the end or moves one."""
    new = KeptSetSong(5, key="C")
    assert merge(BASE, taken_out(BASE, out), put_in(BASE, new)).order == put_in(taken_out(BASE, out), new)
    assert merge(BASE, put_in(BASE, new), taken_out(BASE, out)).order == put_in(taken_out(BASE, out), new)
    assume(out != place)
    found = merge(BASE, taken_out(BASE, out), moved(BASE, place, 1)).order
    first = BASE.songs[place - 1]
    assert found.songs == (first, *(song for song in taken_out(BASE, out).songs if song != first))


def test_two_orders_clash():
    """Theirs stands; both are told."""
    mine, theirs = moved(BASE, 1, 4), moved(BASE, 2, 1)
    found = merge(BASE, mine, theirs)
    assert found.order == theirs
    assert found.clashes == (Clash("order", (2, 3, 4, 1), (2, 1, 3, 4)),)


def test_a_song_that_stands_twice_is_compared_as_a_whole():
    """Nothing tells which of its times was taken out, so nothing is put on the wrong one."""
    twice = replace(BASE, songs=(*BASE.songs, KeptSetSong(1, 2)))
    mine = replace(twice, songs=(KeptSetSong(1, key="Eb"), *twice.songs[1:]))
    theirs = taken_out(twice, 1)
    found = merge(twice, mine, theirs)
    assert found.order == theirs
    assert [clash.what for clash in found.clashes] == ["rows"]


TWICE = replace(BASE, songs=(*BASE.songs, KeptSetSong(1, 2)))


def with_row(order, place, **fields):
    """An order with one row changed."""
    rows = list(order.songs)
    rows[place - 1] = replace(rows[place - 1], **fields)
    return replace(order, songs=tuple(rows))


@given(st.sampled_from([1, 5]), st.sampled_from([1, 5]), st.sampled_from(["Eb", "F"]))
def test_where_nobody_moved_a_song_that_stands_twice_each_time_is_its_own(mine, theirs, key):
    """Two who change its two times, or two fields of one, are both kept."""
    found = merge(TWICE, with_row(TWICE, mine, key=key), with_row(TWICE, theirs, counts_in="Bram"))
    both = with_row(with_row(TWICE, mine, key=key), theirs, counts_in="Bram")
    assert (found.order, found.clashes) == (both, ())
    new = KeptSetSong(6)
    changed = put_in(with_row(TWICE, theirs, counts_in="Bram"), new)
    assert merge(TWICE, with_row(TWICE, mine, key=key), changed).order == put_in(both, new)


def test_times_of_a_song_moved_among_themselves_are_compared_as_a_whole():
    """A swap of the two is no change of their keys."""
    base = replace(BASE, songs=(KeptSetSong(1), KeptSetSong(1, 2)))
    found = merge(base, moved(base, 1, 2), with_row(base, 1, key="Eb"))
    assert found.order == with_row(base, 1, key="Eb")
    assert [clash.what for clash in found.clashes] == ["rows"]


def test_a_clash_at_one_time_of_a_song_names_that_time():
    """The other time is kept of both, and the two values are those of that time."""
    mine = with_row(with_row(TWICE, 5, key="Eb"), 1, segue=True)
    theirs = with_row(with_row(TWICE, 5, key="F"), 1, counts_in="Bram")
    found = merge(TWICE, mine, theirs)
    assert found.clashes == (Clash("key", "Eb", "F", 1, 2),)
    assert found.order == with_row(theirs, 1, segue=True)
