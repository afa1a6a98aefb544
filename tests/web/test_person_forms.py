"""The forms of singers and players, read."""

import pytest
from hypothesis import given

from fifthwise.evening import part_names
from fifthwise.web.person_forms import (
    FormFault,
    player_texts,
    read_notes,
    read_player_form,
    read_singer_form,
    read_version,
    singer_texts,
)
from tests.strategies import players, singers

MAREN = {"name": "Maren", "low": "F3", "high": "D5", "easy_low": "A3", "easy_high": "Bb4"}


@given(singers())
def test_a_singer_comes_back_from_the_form(singer):
    """Written into the form's fields and read again, a singer is the same, when the name can be kept."""
    reading = read_singer_form(singer_texts(singer))
    assert reading.person == singer or set(reading.faults) == {"name"}


@given(players())
def test_a_player_comes_back_from_the_form(player):
    """Written into the form's fields and read again, a player is the same, when the name can be kept."""
    reading = read_player_form(player_texts(player))
    assert reading.person == player or set(reading.faults) == {"name"}


@pytest.mark.parametrize("text", ["Bb4", "B♭4", " Bb 4 ", "bb4", "b ♭ 4"])
def test_a_note_may_be_typed_in_several_ways(text):
    """Signs, blanks and small letters are mended, and the form shows the mended note."""
    reading = read_singer_form(MAREN | {"easy_high": text})
    assert str(reading.person.comfort.high) == "Bb4"
    assert reading.texts["easy_high"] == "B♭4"


def test_every_fault_is_told_at_its_field_and_no_text_is_lost():
    """Nothing hides behind the first fault; what cannot be read stays as it was typed."""
    reading = read_singer_form({"name": " ", "low": "H2", "easy_low": "A3", "easy_high": "G3", "turn": "4"})
    assert reading.person is None
    assert set(reading.faults) == {"name", "low", "high", "easy_high", "turn"}
    assert (reading.texts["low"], reading.texts["turn"]) == ("H2", "4")


@pytest.mark.parametrize(
    ("change", "field", "told"),
    [
        ({"high": "E3"}, "high", "below the lowest"),
        ({"easy_low": "E3"}, "easy_low", "below the lowest"),
        ({"easy_high": "E5"}, "easy_high", "above the highest"),
        ({"easy_high": "G3"}, "easy_high", "below where"),
    ],
)
def test_ranges_that_are_upside_down_are_told(change, field, told):
    """The fault stands at the field that is likely to be wrong, and names the other."""
    assert told in str(read_singer_form(MAREN | change).faults[field])


def test_turns_are_put_in_order():
    """Which of the two ends of a change-over is typed first makes no difference."""
    turns = read_singer_form(MAREN | {"turn": "F4", "turn_to": "D4"}).person.turns
    assert [str(note) for note in turns] == ["D4", "F4"]


def test_the_picture_takes_what_can_be_read():
    """Half a form gives half a voice."""
    assert {field: str(note) for field, note in read_notes({"low": "f3", "high": "?"}).items()} == {
        "low": "F3"
    }


@pytest.mark.parametrize("instrument", part_names())
def test_a_capo_is_kept_where_the_instrument_takes_one(instrument):
    """And an instrument's own way to show its page is taken where none is chosen."""
    player = read_player_form({"name": "Ines", "instrument": instrument, "capo": "yes"}).person
    assert player.capo == player.part.capo
    assert player.show == player.part.show


def test_what_no_list_offers_is_a_fault():
    """An instrument, a level and a way to show that are not known, all at once."""
    form = {"name": "Ines", "instrument": "fidle", "level": "ninth", "show": "colours"}
    reading = read_player_form(form)
    assert set(reading.faults) == {"instrument", "level", "show"}
    assert "Did you mean 'fiddle'?" in str(reading.faults["instrument"])


@pytest.mark.parametrize("version", ["", "-1", "1.5", "9" * 12, "٣"])
def test_a_form_without_its_version_is_refused(version):
    """Nothing is saved over what nobody looked at."""
    with pytest.raises(FormFault, match="which version"):
        read_version({"version": version}, "singer")
