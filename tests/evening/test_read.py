"""An evening's file: what it says, and everything that is wrong with it at once."""

import pytest

from fifthwise.evening import EveningFaults, read_evening

SOUND = """
evening: The Pier Lamp dance
date: 2026-12-05
singers:
  Wenke: {usable: F3-D5, comfort: A3-Bb4}
  Jorun: {usable: A2-G4, comfort: C3-E4, turns: D4 F4}
players:
  Isa:  {instrument: violin, level: third, show: both}
  Ole:  {instrument: guitar, capo: yes}
  Lotte: {instrument: trumpet in Bb, show: letters}
songs:
  - {chart: one.chart.md, singer: Wenke}
  - {chart: two.chart.md, singer: Jorun, key: Bb, counts-in: Isa, segue: yes}
  - {chart: three.chart.md}
"""


PLAYER = "evening: x\nplayers:\n  Ole: {}\nsongs:\n - {{chart: a}}\n"


def faults_of(text):
    """What is said of a faulty evening, as (line, words)."""
    with pytest.raises(EveningFaults) as caught:
        read_evening(text, "evening.set.yaml")
    return [(fault.line, f"{fault.what}. {fault.fix}") for fault in caught.value.faults]


def test_a_sound_evening_is_read_whole():
    """Singers, players and songs keep their order and their settings."""
    evening = read_evening(SOUND)
    assert evening.name == "The Pier Lamp dance"
    assert evening.date == "2026-12-05"
    assert [singer.name for singer in evening.singers] == ["Wenke", "Jorun"]
    assert [str(note) for note in evening.singers[1].turns] == ["D4", "F4"]
    assert [(p.name, p.part.name, p.show, p.capo) for p in evening.players] == [
        ("Isa", "violin", "both", False),
        ("Ole", "guitar", "both", True),
        ("Lotte", "trumpet in Bb", "letters", False),
    ]
    assert [(s.singer, s.key, s.counts_in, s.segue) for s in evening.songs] == [
        ("Wenke", None, None, False),
        ("Jorun", "Bb", "Isa", True),
        (None, None, None, False),
    ]


def test_values_stay_text():
    """A singer called No, a date and a number are not turned into something else."""
    text = "evening: 1e3\ndate: 2026-12-05\nsingers:\n  No: {usable: F3-D5, comfort: A3-Bb4}\n"
    evening = read_evening(text + "songs:\n  - {chart: 7, singer: No}\n")
    assert (evening.name, evening.singers[0].name, evening.songs[0].chart) == ("1e3", "No", "7")


def test_all_faults_are_told_at_once_each_with_its_line():
    """A near miss is named where there is one."""
    text = (
        SOUND.replace("date:", "dat:")
        .replace("comfort: A3-Bb4", "comfort: Bb4-A3")
        .replace("instrument: violin", "instrument: voilin")
        .replace("show: letters", "show: leters")
        .replace("singer: Wenke", "singer: Wenka")
        .replace("key: Bb", "key: H")
        .replace("{chart: three.chart.md}", "{singer: Wenke}")
    )
    said = faults_of(text)
    assert [line for line, _ in said] == [3, 5, 8, 10, 12, 13, 14]
    words = " / ".join(what for _, what in said)
    for part in (
        "unknown field 'dat' in an evening. Did you mean 'date'?",
        "'Bb4-A3' is upside down",
        "the instrument 'voilin' is not known. Did you mean 'violin'?",
        "'leters' is no show. Did you mean 'letters'?",
        "no singer is named 'Wenka'",
        "'H' is no key",
        "the song has no chart",
    ):
        assert part in words


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "this is no evening"),
        ("- a\n- b\n", "this is no evening"),
        ("evening: x\nsongs: [", "this is no YAML"),
        ("evening: x\n\tsongs: 1", "this is no YAML"),
        ("evening: &a x\nsongs: *a\n", "aliases"),
        ("evening: " + "[" * 40 + "]" * 40, "nested too deep"),
        ("evening: x\nsongs: no\n", "the songs must be a list"),
        ("evening: x\nsongs: []\n", "there are no songs yet"),
        ("evening: x\ndate: 2026-13-45\nsongs:\n - {chart: a}\n", "there is no day '2026-13-45'"),
        (PLAYER.format("{instrument: guitar, capo: 2}"), "the fret is chosen for each song"),
        (PLAYER.format("{instrument: viola, capo: yes}"), "a viola takes no capo"),
        ("evening: x\nevening: y\nsongs:\n - {chart: a}\n", "'evening' is given twice"),
        ("evening: {a: b}\nsongs:\n - {chart: a}\n", "'evening' must be a text"),
        ("songs:\n - {chart: a}\n", "the evening has no name"),
        ("evening: x\n", "the evening has no songs"),
        ("evening: x\nsongs:\n - {chart: a, segue: maybe}\n", "neither yes nor no"),
        ("evening: x\nplayers:\n  Ole: guitar\nsongs:\n - {chart: a}\n", "must be fields"),
        ("evening: x\nplayers:\n  Ole: {show: both}\nsongs:\n - {chart: a}\n", "has no instrument"),
        ("evening: x\nsingers:\n  Wenke: {usable: F3-D5}\nsongs:\n - {chart: a}\n", "the range is missing"),
        ("evening: x\nsingers:\n  Wenke: {usable: F3-D5, comfort: A3-E5}\nsongs:\n - {chart: a}\n", "beyond"),
        ("evening: x\nsongs:\n - {chart: a}\nextra: " + "y" * 1_000_001, "too large"),
        ("evening: !!python/object:os.system x\nsongs: !!int x\n", "the songs must be a list"),
    ],
)
def test_broken_files_are_said_clearly(text, words):
    """YAML is only taken apart, never constructed; size and depth are bounded."""
    assert any(words in said for _, said in faults_of(text))
