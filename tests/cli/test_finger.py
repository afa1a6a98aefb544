"""A line fingered on the command line."""

import json

import pytest

from tests.cli.running import run


def rows(done):
    """The rows of the first part, each label with its cells."""
    return {line.split()[0]: line.split()[1:] for line in done.lines if line and line[0].islower()}


def test_a_typed_line_is_fingered():
    """G major in first position: open strings and the fingers of every method book.

    Method-book practice, from memory.
    """
    told = rows(run("finger", "1 2 3 4 5 6 7 1'", "--key", "G"))
    assert told["string"] == list("GGGGDDDD")
    assert told["finger"] == list("01230123")
    assert told["note"] == ["G3", "A3", "B3", "C4", "D4", "E4", "F♯4", "G4"]


def test_json_has_each_note_and_each_shift():
    """Notes carry degree, pitch, string, stop, finger and position; a shift carries its reason."""
    line = "1 2 3 4 5 6 7 1' 2' 3' 4' 5' 6' 7' 1''"
    done = run("finger", line, "--key", "D", "--octave", "4", "--level", "third", "--json")
    record = json.loads(done.out)
    top = record["notes"][-1]
    assert {"degree": "1", "pitch": "D6", "string": "E", "stop": 10, "finger": 4}.items() <= top.items()
    assert record["notes"][0]["position"] == "first"
    assert record["cost"] > 0
    assert any("out of reach in first position" in shift["reason"] for shift in record["shifts"])


def test_the_tune_of_a_chart_is_fingered_in_any_key():
    """A file's tune is moved to the key and fingered; two ways are told, the first again as the best."""
    done = run("finger", "demo/lantern-on-the-quay.chart.md", "--key", "Cb", "--ways", "2", "--json")
    record = json.loads(done.out)
    assert record["key"] == "Cb"
    assert len(record["others"]) == 1
    assert record["others"][0]["cost"] >= record["cost"]
    assert [note["pitch"] for note in record["others"][0]["notes"]] == [n["pitch"] for n in record["notes"]]


def test_a_cross_tuning_has_its_own_open_strings():
    """In AEAE the 1 and 5 of A are open, and the two A strings are told apart."""
    told = rows(run("finger", "1 5 0 5'&1''", "--key", "A", "--tuning", "AEAE", "--octave", "3"))
    assert told["string"] == ["A3", "E4", "A4&E5"]
    assert told["finger"] == ["0", "0", "3&3"] or told["finger"] == ["0", "0", "4&3"]


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (
            ["5, 6,", "-k", "C", "--octave", "3"],
            "bar 1, note 1: G2 lies below the violin's lowest string, G3",
        ),
        (["1 | 2 5''", "-k", "G", "--octave", "3"], "bar 2, note 2: D6 is out of reach in first position"),
        (["1 2&3&4&5", "-k", "C"], "bar 1, note 2: 4 notes at once"),
        (["1 9x", "-k", "C"], "'9x' is no note of a tune"),
        (["0", "-k", "C"], "the song has no tune"),
        (["1"], "Say the key of the line"),
        (["1", "-k", "H"], "'H' is no key"),
        (["none.chart.md"], "there is no such file"),
        (["1", "-k", "C", "--instrument", "voila"], "Did you mean 'viola'?"),
        (["1", "-k", "C", "--tuning", "GDA"], "3 strings for a violin with 4"),
        (["1", "-k", "C", "--level", "forth"], "forth"),
    ],
)
def test_a_fault_is_said_and_nothing_else(args, words):
    """What is wrong, where, and how to mend it; no traceback."""
    done = run("finger", *args)
    assert done.code == 2
    assert words in done.err
    assert "Traceback" not in done.err
    assert not done.out


def test_a_line_of_five_thousand_notes_is_fingered():
    """A very long line is neither refused nor slow to the point of hanging."""
    done = run("finger", " ".join(["1 2 3 5"] * 1250), "--key", "F#", "--json")
    assert len(json.loads(done.out)["notes"]) == 5000
