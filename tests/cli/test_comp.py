"""Lines to play under a song on the command line."""

import json

import pytest

from tests.cli.running import run

SONG = "demo/tar-lane-two-step.chart.md"


@pytest.mark.parametrize(
    ("kind", "named"),
    [
        ("comp", "comp"),
        ("guide", "guide line"),
        ("pad", "pad"),
        ("bass", "bass"),
        ("harmony", "second voice"),
    ],
)
def test_each_kind_is_told_bar_by_bar(kind, named):
    """The head names key, kind, instrument and level; each bar its chords in letters of the key."""
    done = run("comp", SONG, "--key", "Bb", "--kind", kind, "--instrument", "viola", "--level", "third")
    assert done.code == 0, done.err
    assert done.lines[0].startswith(f"Tar Lane Two-Step, B♭, {named}, viola, positions up to third")
    assert done.lines[2].split()[:4] == ["1", "turn", "1", "Bb"]
    assert any(line.startswith("Shifts: ") for line in done.lines)
    assert ("stop when it hurts" in done.lines[-1]) == (kind in ("comp", "harmony"))


def test_json_has_notes_chords_and_shifts():
    """A double stop has two entries that share their time."""
    done = run("comp", SONG, "--json")
    record = json.loads(done.out)
    assert (record["title"], record["kind"], record["instrument"]) == ("Tar Lane Two-Step", "comp", "violin")
    low, high = record["notes"][:2]
    assert low["at"] == high["at"]
    assert {"bar", "degree", "pitch", "string", "stop", "finger", "position"} <= set(low)
    assert record["chords"][0]["number"] == "1"
    assert isinstance(record["shifts"], list)


def test_a_second_voice_lies_above_or_alone_where_asked():
    """Alone each time has one note; above the tune it is the upper one."""
    alone = json.loads(
        run("comp", SONG, "--kind", "harmony", "--alone", "--above", "--level", "third", "--json").out
    )
    times = [note["at"] for note in alone["notes"]]
    assert len(times) == len(set(times))


def test_a_comp_that_should_keep_clear_of_a_floating_tune_says_so():
    """Without an octave nobody knows where the song is sung."""
    done = run("comp", "demo/black-buoy.chart.md", "--clear")
    assert done.code == 0
    assert "notice: the song does not say where it is sung" in done.err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("demo/black-buoy.chart.md", "--kind", "harmony"), "the song has no tune"),
        ((SONG, "--instrument", "violn"), "Did you mean 'violin'?"),
        (
            (SONG, "--kind", "bass", "--instrument", "double bass", "--key", "Eb"),
            "is out of reach in first position",
        ),
        ((SONG, "--key", "H"), "key"),
        (("demo/nowhere.chart.md",), "nowhere"),
    ],
)
def test_what_cannot_be_done_is_told(words, told):
    """The fault is said on the error stream and the command ends with 2."""
    done = run("comp", *words)
    assert done.code == 2
    assert told in done.err
    assert done.out == ""


def test_a_section_has_a_part_for_each_player():
    """Low to high, the cello on the chord's bass; one player is no section, and that is said."""
    done = run(
        "comp", SONG, "--key", "Bb", "--kind", "section", "--players", "cello, viola, violin", "--json"
    )
    parts = json.loads(done.out)
    assert [part["instrument"] for part in parts] == ["cello", "viola", "violin"]
    assert parts[0]["notes"][0]["degree"] == "1"
    for args, words in (
        (("--players", "cello"), "1 player. Name 2 to 4"),
        ((), "Say who plays, low to high"),
    ):
        refused = run("comp", SONG, "--kind", "section", *args)
        assert (refused.code, words in refused.err) == (2, True)
