import pytest

from fifthwise.chart import rekey, renumber, unfold, write_chart
from fifthwise.theory import SpelledPitch, degree_interval, read_note, to_letters, transpose, write_letters
from tests.chart.texts import chart_of

TUNE = "1 | 4 | [key A] 5\ntune: 5, 1 3 5 | 6 - - 0 | 1' - - -\n"


def letters(chart):
    """Each entry's chord in letters."""
    return [
        write_letters(to_letters(e.chord, chart.numbering.one(e.key)))
        for e in unfold(chart).entries
        if e.chord
    ]


def sung(chart):
    """Each note of the tune as a pitch, while one key holds."""
    one = SpelledPitch(chart.numbering.one(chart.key).fifths, chart.octave)
    return [
        str(transpose(one, degree_interval(p.degree, p.octave)))
        for n in unfold(chart).notes
        for p in n.note.pitches
    ]


def test_a_song_moves_with_its_numbers():
    """The numbers stay, the letters move."""
    moved = rekey(chart_of("1 | 4 | 5/7 | 6-", key="G"), read_note("Eb"))
    assert str(moved.key) == "Eb"
    assert letters(moved) == ["Eb", "Ab", "Bb/D", "Cm"]


def test_keys_named_inside_the_song_move_with_it():
    """In the form and in bars; steps stay steps."""
    chart = chart_of("# a\n1 | [key A] 4 | [key +2] 5\n", key="G", form="a, [key Bb], a, [key +1], a")
    moved = rekey(chart, read_note("C"))
    assert "[key D] 4 | [key +2] 5" in write_chart(moved)
    assert "form: a, [key Eb], a, [key +1], a" in write_chart(moved)


def test_a_named_key_with_too_many_signs_is_respelled():
    """F# major moved a fifth up by C# would have eight sharps."""
    chart = chart_of("1 | [key F#] 4", key="B")
    assert "[key Ab]" in write_chart(rekey(chart, read_note("C#")))


@pytest.mark.parametrize(
    ("old", "new", "octave"),
    [
        ("C", "F", 4),
        ("C", "G", 3),
        ("C", "F#", 4),
        ("C", "Gb", 4),
        ("G", "C", 5),
        ("A", "C", 5),
        ("C", "B", 3),
        ("B", "C", 5),
        ("C", "D", 4),
    ],
)
def test_a_tune_goes_to_the_nearer_side(old, new, octave):
    """Half an octave at most."""
    assert rekey(chart_of("1", key=old, octave="4"), read_note(new)).octave == octave


def test_a_floating_tune_stays_floating():
    """It has no octave to move."""
    assert rekey(chart_of("1"), read_note("D")).octave is None


@pytest.mark.parametrize(
    ("way", "numbers"),
    [("from-six", "6- | 4 | 1 | 3/#5"), ("from-one", "1- | b6 | b3 | 5/7"), ("natural", "1- | 6 | 3 | 5/#7")],
)
def test_a_minor_song_is_counted_in_three_ways(way, numbers):
    """A minor: Am F C E/G# in all of them."""
    chart = chart_of("Am | F | C | E/G#", key="A minor")
    new = renumber(chart, way)
    assert numbers in write_chart(new)
    assert letters(new) == ["Am", "F", "C", "E/G#"]


@pytest.mark.parametrize("way", ["from-six", "from-one", "natural"])
def test_a_renumbered_tune_keeps_its_pitches(way):
    """Octave, lowest and highest are counted anew."""
    chart = chart_of("6-\ntune: 6, 1 3 6\n", key="A minor", octave="4", lowest="6,", highest="6")
    new = renumber(chart, way)
    assert sung(chart) == sung(new) == ["A3", "C4", "E4", "A4"]


def test_a_major_song_is_left_alone():
    """But for its setting, which a minor key inside it would follow."""
    chart = chart_of("1 | 6-")
    assert renumber(chart, "from-one").sections == chart.sections
    inside = chart_of("1 | [key A minor] 6- | 4")
    assert "[key A minor] 1- | b6" in write_chart(renumber(inside, "from-one"))
    assert letters(renumber(inside, "from-one")) == letters(inside) == ["C", "Am", "F"]
