"""What to play over a song on the command line."""

from tests.cli.running import run

SONG = "demo/lantern-on-the-quay.chart.md"


def test_advice_has_notes_drones_fills_and_bowings():
    """In the key asked for, for the instrument asked for: the 3 of each chord comes first.

    Guide tones before roots: common practice, no source.
    """
    done = run("advice", SONG, "--key", "Ab", "--instrument", "viola")
    assert done.code == 0, done.err
    assert done.lines[0] == "Lantern on the Quay, A♭, viola"
    assert (
        "  1: 3: the chord’s 3; 1: the root. A♭ major pentatonic. Or A♭ major. Pass through 4." in done.lines
    )
    assert "  5sus: 1: the chord’s 4, stays;" in done.out
    for head in ("Strings that may ring, viola", "Room for fills", "The bow"):
        assert head in done.lines
    assert "stop when it hurts" in done.lines[-1]


def test_a_kick_off_and_a_tag_are_offered_where_the_song_has_none():
    """The waltz begins with its verse and ends with its turn; the song above has an intro and a tag."""
    told = run("advice", "demo/wet-sail-waltz.chart.md").lines
    at = told.index("Places of the form")
    assert [line.split(":")[0] for line in told[at + 1 : at + 3]] == ["  Kick-off", "  Tag"]
    assert "Places of the form" not in run("advice", SONG).lines


def test_each_chord_is_told_once():
    """However often a chord comes, its advice stands once."""
    lines = run("advice", SONG).lines
    told = [line for line in lines if line.startswith("  6-: ")]
    assert len(told) == 1


def test_another_tuning_rings_otherwise():
    """In AEAE the open strings are A and E; what cannot be is said."""
    drones = run("advice", SONG, "--key", "A", "--tuning", "AEAE").out
    assert "A3: in 1" in drones
    assert "G: " not in drones.partition("Strings that may ring")[2].partition("Room")[0]
    refused = run("advice", SONG, "--tuning", "QQ")
    assert (refused.code, "no tuning" in refused.err) == (2, True)
