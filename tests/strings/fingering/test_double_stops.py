import pytest

from fifthwise.strings import instrument_of
from fifthwise.strings.fingering import finger_line, fingering_faults, fingerings
from fifthwise.theory import SpelledPitch
from tests.strings.fingering.reading import fingered, fingers, line

VIOLIN = instrument_of("violin")
# Interval, low stop, high stop, typical fingers (low string, high string). On strings a fifth apart an
# interval is 7 semitones and the difference of the stops: arithmetic. Fingers: common practice, no source.
TYPICAL = [
    ("minor third", 5, 1, (3, 1)),
    ("minor third", 7, 3, (4, 2)),
    ("minor third", 6, 2, (4, 1)),
    ("major third", 5, 2, (3, 1)),
    ("major third", 7, 4, (4, 2)),
    ("fourth", 4, 2, (2, 1)),
    ("fourth", 5, 3, (3, 2)),
    ("fourth", 7, 5, (4, 3)),
    ("tritone", 3, 2, (2, 1)),
    ("fifth", 2, 2, (1, 1)),
    ("fifth", 5, 5, (3, 3)),
    ("minor sixth", 2, 3, (1, 2)),
    ("minor sixth", 4, 5, (2, 3)),
    ("major sixth", 2, 4, (1, 2)),
    ("major sixth", 3, 5, (2, 3)),
    ("minor seventh", 2, 5, (1, 3)),
    ("major seventh", 2, 6, (1, 3)),
    ("major seventh", 2, 6, (1, 4)),
    ("octave", 2, 7, (1, 4)),
    ("minor tenth", 2, 10, (1, 4)),
    ("major tenth", 1, 10, (1, 4)),
    ("unison", 7, 0, (4, 0)),
]


def spelled(midi):
    """A pitch that sounds so."""
    pitches = (SpelledPitch(fifths, octave) for fifths in range(-4, 8) for octave in range(1, 8))
    return next(str(pitch) for pitch in pitches if pitch.midi == midi)


@pytest.mark.parametrize("low_string", [0, 1, 2])
@pytest.mark.parametrize(("interval", "low", "high", "expected"), TYPICAL)
def test_the_usual_fingers_of_a_double_stop_are_found(interval, low, high, expected, low_string):
    """Wherever the interval lies, its usual fingers are among the best six of first position.

    Source: common practice; the differences of stops are arithmetic.
    """
    strings = VIOLIN.strings[low_string : low_string + 2]
    sounding = sorted((strings[0].midi + low, strings[1].midi + high))
    text = "+".join(spelled(midi) for midi in sounding)
    found = fingerings(line(text), VIOLIN, "first", 6)
    shown = [
        tuple(stop.finger for stop in sorted(each.notes[0].stops, key=lambda stop: stop.string))
        for each in found
        if min(stop.string for stop in each.notes[0].stops) == low_string
    ]
    assert expected in shown, interval
    assert all(fingering_faults(each, VIOLIN, "first") == () for each in found)


@pytest.mark.parametrize(
    ("text", "level", "expected"),
    [
        ("G4+B4", "first", "D3+A1"),  # major third, gap -3
        ("F#4+A4", "first", "D2+A0"),  # minor third, gap -4, with an open string
        ("Bb3+G4", "first", "G2+D3"),  # major sixth, gap +2
        ("B3+G4", "first", "G2+D3"),  # minor sixth, gap +1
        ("A3+A4", "first", "G1+D4"),  # octave, gap +5
        ("G4+G5:D+A", "third", "D1+A4"),  # the octave in third position
    ],
)
def test_known_double_stops(text, level, expected):
    """Thirds, sixths and octaves as every player knows them.

    Source: common practice; gaps are arithmetic.
    """
    assert fingered(text, level=level) == expected


@pytest.mark.parametrize(
    ("text", "held", "wide"), [("Bb4+C#5:D+A", "D4+A2", "D4+A3"), ("F#4+F5:D+A", "D2+A4", "D3+A4")]
)
def test_third_and_fourth_finger_do_not_lie_a_major_third_apart(text, held, wide):
    """Of two hands that reach both notes, the one with such a gap is none.

    Source: from memory; finger patterns are counted with gaps up to a minor third.
    """
    found = [fingers(each, VIOLIN) for each in fingerings(line(text), VIOLIN, "first", 6)]
    assert held in found
    assert wide not in found


def test_the_minor_third_is_the_wider_stretch():
    """Its stops lie a semitone further apart than those of the major third.

    Source: arithmetic, 7 semitones less 4 and less 3.
    """
    minor, major = (finger_line(line(text), VIOLIN).notes[0].stops for text in ("G4+Bb4", "G4+B4"))
    assert minor[0].stop - minor[1].stop == 4
    assert major[0].stop - major[1].stop == 3


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("E2+C3", "C3+G4"),  # minor sixth, gap +1
        ("D2+B2", "C1+G3"),  # major sixth, gap +2
        ("F2+A2", "C4+G1"),  # major third, gap -3, the closed hand
        ("D2+A2", "C1+G1"),  # fifth, one finger across
    ],
)
def test_double_stops_on_the_cello(text, expected):
    """Sixths lie under neighbouring or next fingers, thirds span the closed hand.

    Source: common practice, no source.
    """
    cello = instrument_of("cello")
    assert fingers(finger_line(line(text), cello), cello) == expected


def test_an_octave_on_the_cello_takes_the_thumb():
    """Thumb on the lower string, third finger on the upper, five semitones further.

    Source: common practice, no source.
    """
    cello = instrument_of("cello")
    found = finger_line(line("A3+A4:D+A"), cello, "all")
    assert fingers(found, cello) == "DT+A3"
    assert [stop.stop for stop in found.notes[0].stops] == [7, 12]


def test_a_row_of_double_stops_may_need_a_finger_to_take_anothers_place():
    """C#4 is the fourth finger under a G and the third under an A; the line is played all the same."""
    found = finger_line(line("C#4+G4 C#4+A4"), VIOLIN)
    assert fingers(found, VIOLIN) == "G4+D3 G3+D4"
    assert fingering_faults(found, VIOLIN, "first") == ()


def test_a_comp_in_g_lies_under_the_hand():
    """1 4 1 5 in G, two notes a chord.

    Source: common practice, no source.
    """
    assert fingered("G4+B4 G4+C5 G4+B4 F#4+A4") == "D3+A1 D3+A2 D3+A1 D2+A0"
