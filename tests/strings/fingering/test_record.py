"""A fingering as JSON."""

import json
from fractions import Fraction

from fifthwise.strings import instrument_of
from fifthwise.strings.fingering import Line, LineNote, finger_line, fingering_record, pin_text
from fifthwise.strings.fingering.pins import read_pin
from fifthwise.theory import read_degree, read_pitch

VIOLIN = instrument_of("violin")


def line(*texts, length=Fraction(1)):
    """Notes one after the other, two at once joined by a plus sign."""
    return Line(
        tuple(
            LineNote(tuple(read_pitch(each) for each in text.split("+")), at * length, length)
            for at, text in enumerate(texts)
        )
    )


def test_a_record_has_an_entry_a_pitch_and_the_cost():
    """The two of a double stop share their time; JSON takes it whole."""
    fingering = finger_line(line("G4+B4", "C5"), VIOLIN)
    record = fingering_record(fingering, VIOLIN)
    assert json.loads(json.dumps(record)) == record
    low, high, single = record["notes"]
    assert (low["at"], high["at"], single["at"]) == (0, 0, 1)
    assert [(entry["pin"], entry["stop"], entry["name"]) for entry in record["notes"]] == [
        ("D3", 5, "3"), ("A1", 2, "1"), ("A2", 3, "low 2"),
    ]  # fmt: skip
    assert low["position"] == "first"
    assert record["cost"] == round(fingering.cost, 3)
    assert low["degree"] is None


def test_a_record_tells_each_shift_and_why():
    """A shift has the time of the note that it reaches, both positions and the reason."""
    record = fingering_record(finger_line(line("A3", "B3", "G5", "C6", "D6"), VIOLIN, "third"), VIOLIN)
    (shift,) = record["shifts"]
    assert (shift["at"], shift["from"]) == (3, "first")
    assert shift["to"] != "first"
    assert shift["reason"] == "D6 next is out of reach in first position"


def test_degrees_are_written_where_they_are_known():
    """A degree is text; a third of a quarter is rounded to four places."""
    note = LineNote((read_pitch("Bb4"),), Fraction(1, 3), Fraction(2, 3), degrees=(read_degree("b3"),))
    record = fingering_record(finger_line(Line((note,)), VIOLIN), VIOLIN)
    assert record["notes"][0]["degree"] == "b3"
    assert record["notes"][0]["at"] == 0.3333


def test_a_pin_binds_the_finger_that_it_names():
    """What is written can be read back as a pin of the same string and finger."""
    for name in ("violin", "cello", "double bass", "six-string violin"):
        instrument = instrument_of(name)
        for own in instrument.strings:
            note = LineNote((own,), Fraction(0), Fraction(1))
            (stop,) = finger_line(Line((note,)), instrument, "all").notes[0].stops
            pin = read_pin(pin_text(stop, instrument), instrument, "note 1")
            assert stop.string in (pin.strings or ())
            assert pin.finger == stop.finger
