import pytest

from fifthwise.errors import FifthwiseError
from fifthwise.theory import read_pitch
from fifthwise.voice import Range, SingerFault, read_singer
from fifthwise.voice.singer import turn_zone


def test_a_singer_is_read_from_notes():
    """Ranges and change-over notes come out as they were typed."""
    singer = read_singer("Tobias", usable="A2-G4", comfort="C3-E4", turns="D4 F4")
    assert singer.usable == Range(read_pitch("A2"), read_pitch("G4"))
    assert singer.comfort == Range(read_pitch("C3"), read_pitch("E4"))
    assert singer.turns == (read_pitch("D4"), read_pitch("F4"))


@pytest.mark.parametrize("text", ["A3-Bb4", " a3 – B♭4 ", "A3—Bb4", "A3 −Bb4"])
def test_hyphens_dashes_and_signs_are_all_read(text):
    """However a phone writes it, the range is the same."""
    assert str(read_singer("Maren", usable="F3-D5", comfort=text).comfort) == "A3 to Bb4"


def test_a_low_octave_keeps_its_own_sign():
    """The octave below 0 has a minus sign that parts nothing."""
    assert str(read_singer("Low", usable="A-1-C4", comfort="C1-C2").usable) == "A-1 to C4"


def test_no_change_over_is_none():
    """What was not named is not made up."""
    assert turn_zone(read_singer("Maren", usable="F3-D5", comfort="A3-Bb4")) is None


@pytest.mark.parametrize(
    ("turns", "zone"), [("E4", (63, 65)), ("D4 F4", (62, 65)), ("F4, D4", (62, 65)), ("D4", (61, 63))]
)
def test_one_change_over_note_reaches_a_half_step_each_way(turns, zone):
    """One note is a zone of three half steps, two are its ends in either order."""
    assert turn_zone(read_singer("Tobias", usable="A2-G4", comfort="C3-E4", turns=turns)) == zone


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"usable": "F3-D5"}, r"singer Maren, comfort: the range is missing\. Ask which notes are easy"),
        ({"usable": "F3-D5", "comfort": " "}, r"comfort: the range is missing"),
        ({"comfort": "A3-Bb4"}, r"singer Maren, usable: the range is missing\. Ask for the lowest"),
        ({"usable": "D5-F3", "comfort": "A3-Bb4"}, r"'D5-F3' is upside down.*'F3-D5'"),
        ({"usable": "F3-D5", "comfort": "Bb4-A3"}, r"comfort: 'Bb4-A3' is upside down"),
        ({"usable": "F3-D5", "comfort": "E3-Bb4"}, r"E3 to Bb4 reaches beyond the usable F3 to D5"),
        ({"usable": "F3-D5", "comfort": "A3-Eb5"}, r"A3 to Eb5 reaches beyond the usable F3 to D5"),
        ({"usable": "alto", "comfort": "A3-Bb4"}, r"'alto' is no range\. Write two notes"),
        ({"usable": "F3", "comfort": "A3-Bb4"}, r"'F3' is no range"),
        ({"usable": "H3-D5", "comfort": "A3-Bb4"}, r"usable: 'H3' is no pitch\. Write a note and its octave"),
        ({"usable": "F3-D5", "comfort": "A3-Bb4", "turns": "D"}, r"turns: 'D' is no pitch"),
        ({"usable": "F3-D5", "comfort": "A3-Bb4", "turns": "D4 E4 F4"}, r"'D4 E4 F4' names 3 notes"),
    ],
)
def test_a_fault_says_what_where_and_how_to_mend(fields, words):
    """Each slip has its own words."""
    with pytest.raises(SingerFault, match=words):
        read_singer("Maren", **fields)


def test_a_singer_has_a_name():
    """Reasons speak of the singer by name."""
    with pytest.raises(SingerFault, match="has no name"):
        read_singer("  ", usable="F3-D5", comfort="A3-Bb4")


def test_a_singers_fault_is_ours():
    """The doors catch one base."""
    assert issubclass(SingerFault, FifthwiseError)


def test_a_half_step_is_compared_by_sound():
    """B#3 sounds as C4, so a comfort from C4 up lies inside a usable range from B#3 up."""
    assert read_singer("Maren", usable="B#3-C5", comfort="C4-B#4").comfort.low == read_pitch("C4")
