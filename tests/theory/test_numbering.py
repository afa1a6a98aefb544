import pytest
from hypothesis import given

from fifthwise.theory import MINOR_WAYS, PLAIN_WAYS, Numbering, note_of, read_degree, read_key
from fifthwise.theory.numbering import lowered, raised
from tests.strategies import degrees, keys, numberings


@given(keys(), numberings())
def test_home_is_the_tonic(key, numbering):
    """However a song counts, the degree called home names the key's tonic."""
    assert note_of(numbering.home(key), numbering.one(key)) == key.tonic


@given(keys(), numberings())
def test_the_scale_has_the_notes_of_the_key(key, numbering):
    """Counting from another 1 does not change what the scale sounds."""
    ours = {note_of(degree, numbering.one(key)) for degree in numbering.scale(key)}
    assert ours == {note_of(degree, key.tonic) for degree in key.scale}
    assert [degree.step for degree in numbering.scale(key)] == [1, 2, 3, 4, 5, 6, 7]


@given(degrees())
def test_lowering_and_raising_are_reverses(degree):
    """What natural numbering writes is what it reads."""
    assert raised(lowered(degree)) == degree
    assert lowered(raised(degree)) == degree


@pytest.mark.parametrize(
    ("way", "one", "home"), [("from-six", "C", "6"), ("from-one", "A", "1"), ("natural", "A", "1")]
)
def test_a_minor_is_counted_in_three_ways(way, one, home):
    """A minor is six in C, or one in A. Common practice, no source."""
    numbering, key = Numbering(way), read_key("Am")
    assert str(numbering.one(key)) == one
    assert str(numbering.home(key)) == home
    assert numbering.lowers(key) == (way == "natural")


@pytest.mark.parametrize("way", MINOR_WAYS)
def test_the_minor_ways_concern_minor_keys_alone(way):
    """Major keys and modes count from their tonic whatever the setting."""
    for name in ("C", "D dorian", "A aeolian"):
        key = read_key(name)
        assert Numbering(way).one(key) == key.tonic
        assert not Numbering(way).lowers(key)


def test_natural_numbers_mean_the_scale_of_minor():
    """Plain 3, 6 and 7 mean b3, b6 and b7; the others mean themselves."""
    meant = [str(lowered(read_degree(str(step)))) for step in range(1, 8)]
    assert meant == ["1", "2", "b3", "4", "5", "b6", "b7"]


def test_the_first_way_of_each_setting_is_the_default():
    """A song that says nothing counts minor from six and plain as major."""
    assert Numbering() == Numbering(MINOR_WAYS[0], PLAIN_WAYS[0]) == Numbering("from-six", "explicit")
