"""Singers and players kept: there and back, each name once, one winner, and who stands in a set stays."""

from dataclasses import replace
from operator import attrgetter

import pytest
from hypothesis import HealthCheck, given, settings

from fifthwise.book import (
    Conflict,
    KeptSetSong,
    NameFault,
    NameTaken,
    NoSuchPlayer,
    NoSuchSinger,
    SetOrder,
    StandsInSets,
    add_player,
    add_set,
    add_singer,
    add_song,
    player,
    players,
    remove_player,
    remove_set,
    remove_singer,
    save_player,
    save_singer,
    singer,
    singers,
)
from tests.book.people import a_player, a_singer, winners_at_once
from tests.book.texts import tune
from tests.strategies import players as made_players
from tests.strategies import singers as made_singers

KINDS = {
    "singer": (a_singer, add_singer, save_singer, singer, singers, remove_singer, NoSuchSinger),
    "player": (a_player, add_player, save_player, player, players, remove_player, NoSuchPlayer),
}
EACH = pytest.mark.parametrize("kind", KINDS)
MANY = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def there_and_back(book, kind, person):
    """Add a person, read what is kept, and take it away; a name that cannot be kept is refused."""
    _, add, _, one, everyone, remove, _ = KINDS[kind]
    try:
        kept = add(book, person)
    except NameFault:
        assert everyone(book) == ()
        return
    assert getattr(kept, kind) == person
    assert one(book, kept.id) == kept
    assert everyone(book) == (kept,)
    remove(book, kept.id, kept.version)
    assert everyone(book) == ()


@MANY
@given(person=made_singers())
def test_a_singer_is_read_as_kept(book, person):
    """Every range, change-over and name comes back."""
    there_and_back(book, "singer", person)


@MANY
@given(person=made_players())
def test_a_player_is_read_as_kept(book, person):
    """Every instrument, level, show and capo comes back."""
    there_and_back(book, "player", person)


@EACH
def test_people_are_changed_and_listed_by_name(book, kind):
    """A save makes the next version; case and accents do not matter to the order."""
    make, add, save, one, everyone, _, _ = KINDS[kind]
    kept = [add(book, make(name)) for name in ("zoe", "Émile", "Fritz", "emilia")]
    changed = save(book, kept[2].id, make("Adam"), 1)
    assert (changed.id, changed.version) == (kept[2].id, 2)
    assert one(book, kept[2].id) == changed
    names = [attrgetter(f"{kind}.name")(each) for each in everyone(book)]
    assert names == ["Adam", "Émile", "emilia", "zoe"]


@EACH
def test_a_name_is_given_once(book, kind):
    """Neither a new one nor a changed one takes another's name; one's own may be written anew."""
    make, add, save, _, everyone, _, _ = KINDS[kind]
    first, second = add(book, make("José")), add(book, make("Ann"))
    taken = f"'JOSE': there is already a {kind} of that name. Add what tells the two apart"
    with pytest.raises(NameTaken, match=taken):
        add(book, make("JOSE"))
    with pytest.raises(NameTaken, match=taken):
        save(book, second.id, make("JOSE"), 1)
    assert set(everyone(book)) == {first, second}
    assert save(book, first.id, make("JOSE"), 1).version == 2


@EACH
@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("", "the name is empty. Write a name"),
        (" \u0301", "the name is empty"),
        ("a\tb", "control character"),
        ("a\0", "control character"),
        ("a\ud800", "control character"),
        ("a\u2028b", "control character"),
        ("a\u202eb", r"U\+202E.*without that sign"),
        ("\u202aa", r"U\+202A"),
        ("a\u2066b\u2069", r"U\+2066"),
        ("x" * 101, "the name has 101 characters. Write at most 100"),
        ("\ufdfa" * 12, "the name has 12 characters"),
    ],
)
def test_a_name_that_cannot_be_kept_is_told(book, kind, name, words):
    """Nothing is kept of it, and no database is asked."""
    make, add, save, _, everyone, _, _ = KINDS[kind]
    kept = add(book, make("Ann"))
    for keep in (lambda p: add(book, p), lambda p: save(book, kept.id, p, 1)):
        with pytest.raises(NameFault, match=words):
            keep(replace(make("Ann"), name=name))
    assert everyone(book) == (kept,)


@EACH
def test_a_long_name_is_kept(book, kind):
    """A hundred characters of any script, without the blanks around them."""
    make, add, *_ = KINDS[kind]
    kept = add(book, replace(make(), name=f" {'🎻' * 100} "))
    assert getattr(kept, kind).name == "🎻" * 100


@EACH
def test_a_stale_version_is_refused(book, kind):
    """Neither a save nor a removal goes over what somebody else has saved."""
    make, add, save, one, _, remove, _ = KINDS[kind]
    kept = add(book, make("Ann"))
    newest = save(book, kept.id, make("Anne"), 1)
    told = f"'Anne': the {kind} has been changed meanwhile, it is now version 2. Look at it again"
    for stale in (1, 3, 0, -1, 2**40):
        with pytest.raises(Conflict, match=told) as caught:
            save(book, kept.id, make("Anna"), stale)
        assert caught.value.version == 2
        with pytest.raises(Conflict, match=told):
            remove(book, kept.id, stale)
    assert one(book, kept.id) == newest


@EACH
def test_who_is_not_there_is_told(book, kind):
    """Whatever number was asked for."""
    make, _, save, one, _, remove, absent = KINDS[kind]
    for number in (1, 0, -1, 2**40, 10**30):
        for ask in (one, lambda b, i: save(b, i, make(), 1), lambda b, i: remove(b, i, 1)):
            with pytest.raises(absent, match=f"there is no {kind} {number}. Look for it in the list"):
                ask(book, number)


@EACH
def test_the_number_of_one_who_is_gone_is_not_given_again(book, kind):
    """Whoever still has the old one open cannot save it over somebody else."""
    make, add, save, _, _, remove, absent = KINDS[kind]
    gone = add(book, make("Ann"))
    remove(book, gone.id, 1)
    assert add(book, make("Bo")).id > gone.id
    with pytest.raises(absent):
        save(book, gone.id, make("Anne"), 1)


@EACH
def test_of_several_who_save_at_once_one_wins(book, kind):
    """The others are each told, and only the winner's is kept."""
    make, add, save, one, *_ = KINDS[kind]
    kept = add(book, make("Ann"))
    (winner,) = winners_at_once(lambda number: save(book, kept.id, make(f"Ann {number}"), 1))
    newest = one(book, kept.id)
    assert (getattr(newest, kind).name, newest.version) == (f"Ann {winner}", 2)


@EACH
def test_who_stands_in_a_set_stays(book, kind):
    """The fault names the sets; out of them, one can be removed."""
    make, add, _, one, everyone, remove, _ = KINDS[kind]
    kept = add(book, make("Ann"))
    named = {f"{kind}_ids": (kept.id,)}
    sets = [add_set(book, SetOrder(f"Night {number}", **named)) for number in range(7)]
    told = f"'Ann': the {kind} stands in 'Night 0', 'Night 1', .*'Night 4' and 2 more. Take it out of there"
    with pytest.raises(StandsInSets, match=told) as caught:
        remove(book, kept.id, 1)
    assert caught.value.sets == tuple(f"Night {number}" for number in range(7))
    assert one(book, kept.id) == kept
    for each in sets:
        remove_set(book, each.id, 1)
    remove(book, kept.id, 1)
    assert everyone(book) == ()


def test_who_only_sings_in_a_set_stays_too(book):
    """A singer stands in a set by one song alone."""
    kept, row = add_singer(book, a_singer()), add_song(book, tune())
    add_set(book, SetOrder("Night", songs=(KeptSetSong(row.id, kept.id),)))
    with pytest.raises(StandsInSets, match="'Maren': the singer stands in 'Night'"):
        remove_singer(book, kept.id, 1)
