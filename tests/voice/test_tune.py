from fractions import Fraction

import pytest

from fifthwise.chart import Chart, NoteEvent, PlayedBar, Timeline, TuneNote, TunePitch, parse, rekey, unfold
from fifthwise.theory import read_degree, read_key, read_metre, read_note, read_pitch
from fifthwise.voice import NoTune, rank_keys, read_singer, sung_pitch, sung_tune


def pitch(text):
    """A tune's pitch as a chart writes it: ``5,`` is the 5 below, ``1'`` the 1 above."""
    return TunePitch(read_degree(text.rstrip(",'")), text.count("'") - text.count(","))


def bar(key, metre="4/4"):
    """One played bar in a key."""
    read = read_metre(metre)
    return PlayedBar(
        number=1,
        start=Fraction(0),
        length=read.length,
        section=0,
        section_name=None,
        visit=0,
        bar=0,
        line=0,
        repeat_pass=1,
        verse=0,
        key=read_key(key),
        metre=read,
        tempo_bpm=Fraction(100),
        feel="straight",
    )


def played(*bars):
    """A timeline of bars, each its key, its metre and its notes (kind, pitches, quarters)."""
    notes = tuple(
        NoteEvent(TuneNote(kind, length, pitches), read_key(key), Fraction(0), length, at)
        for at, (key, _, events) in enumerate(bars)
        for kind, pitches, length in events
    )
    return Timeline(tuple(bar(key, metre) for key, metre, _ in bars), (), notes)


def note(text, quarters=1):
    """A played note, or several sounded together."""
    return "note", tuple(map(pitch, text.split("&"))), Fraction(quarters)


def chart(key, **fields):
    """A song without bars: only its head is asked."""
    return Chart("Tide Table", read_key(key), (), **fields)


def heights(tune):
    """Semitones above the tonic."""
    return [sung.above_home.semitones for sung in tune.notes]


def test_notes_are_counted_from_the_tonic_in_felt_beats():
    """A 5 below, a 1, and a 1 above that is held for a half."""
    tune = sung_tune(chart("G"), played(("G", "4/4", [note("5,"), note("1"), note("1'", 2)])))
    assert heights(tune) == [-5, 0, 12]
    assert [sung.beats for sung in tune.notes] == [1, 1, 2]
    assert tune.timed


@pytest.mark.parametrize(
    ("metre", "beats"), [("4/4", 3), ("6/8", 2), ("2/2", Fraction(3, 2)), ("7/8 2+2+3", 3), ("3/4", 3)]
)
def test_a_beat_is_what_the_foot_taps(metre, beats):
    """Three quarters last two dotted quarters in 6/8 and three quarters in uneven eighths."""
    tune = sung_tune(chart("G"), played(("G", metre, [note("1", 3)])))
    assert tune.notes[0].beats == beats


def test_a_modulation_is_in_the_distances():
    """After [key +2] the 1 lies a whole step above home, and its 5 a major sixth."""
    tune = sung_tune(chart("Bb"), played(("Bb", "4/4", [note("1")]), ("C", "4/4", [note("1"), note("5")])))
    assert heights(tune) == [0, 2, 9]
    assert [sung.lift for sung in tune.notes] == [0, 2, 2]


@pytest.mark.parametrize(("key", "height"), [("Db", 1), ("F#", 6), ("Gb", 6), ("G", -5), ("B", -1), ("F", 5)])
def test_a_new_1_is_the_nearest_one(key, height):
    """From C to G the 1 goes down a fourth, to F up a fourth; a tritone goes up."""
    tune = sung_tune(chart("C"), played(("C", "4/4", [note("1")]), (key, "4/4", [note("1")])))
    assert heights(tune) == [0, height]


def test_a_whole_step_up_is_one_however_it_is_spelled():
    """B to Db is a whole step; sung in D it is E, not Fb."""
    tune = sung_tune(chart("B"), played(("Db", "4/4", [note("1"), note("3")])))
    d = read_key("D")
    assert [str(sung_pitch(sung, d, read_pitch("D4"))) for sung in tune.notes] == ["E4", "G#4"]


def test_a_half_step_up_is_spelled_in_the_key_that_holds():
    """[key +1] from Db is D, with F# and no Ebb."""
    tune = sung_tune(chart("Db"), played(("D", "4/4", [note("1"), note("3")])))
    db = read_key("Db")
    assert [str(sung_pitch(sung, db, read_pitch("Db4"))) for sung in tune.notes] == ["D4", "F#4"]


@pytest.mark.parametrize(
    ("minor", "degrees", "heights_told"),
    [("from-six", "6, 1 3 6", [0, 3, 7, 12]), ("from-one", "1 b3 5 1'", [0, 3, 7, 12])],
)
def test_minor_is_counted_from_its_own_tonic(minor, degrees, heights_told):
    """The same tune in A minor, numbered in C and numbered in A, lies equally high above A."""
    events = [note(text) for text in degrees.split()]
    tune = sung_tune(chart("Am", minor=minor), played(("Am", "4/4", events)))
    assert heights(tune) == heights_told


def test_the_written_tonic_stands_beside_the_written_1():
    """With octave 4 the 1 of A minor from six is C4 and its tonic A3."""
    events = ("Am", "4/4", [note("6,")])
    tune = sung_tune(chart("Am", octave=4), played(events))
    assert tune.written == read_pitch("A3")
    assert tune.one.semitones == 3
    assert sung_tune(chart("Am"), played(events)).written is None


def test_of_notes_together_the_highest_is_sung():
    """A double stop is sung on its upper note, wherever it stands."""
    tune = sung_tune(chart("C"), played(("C", "4/4", [note("5&3"), note("3&5"), note("1'&3")])))
    assert heights(tune) == [7, 7, 12]


def test_chops_are_not_sung():
    """What the bow strikes without a pitch is left out."""
    tune = sung_tune(chart("C"), played(("C", "4/4", [note("1"), ("chop", (), Fraction(1))])))
    assert heights(tune) == [0]


def test_ends_stand_for_a_tune():
    """Lowest and highest weigh the same, in each key by the time for which it holds."""
    ends = chart("C", lowest=pitch("5,"), highest=pitch("5"))
    tune = sung_tune(ends, played(("C", "4/4", []), ("C", "4/4", []), ("D", "4/4", [])))
    assert not tune.timed
    assert [(sung.above_home.semitones, sung.beats) for sung in tune.notes] == [
        (-5, 8),
        (7, 8),
        (-3, 4),
        (9, 4),
    ]


def test_a_written_tune_is_believed_before_its_ends():
    """Where a tune is written the ends in the head are not asked."""
    ends = chart("C", lowest=pitch("1,"), highest=pitch("1'"))
    assert heights(sung_tune(ends, played(("C", "4/4", [note("3")])))) == [4]


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        (
            {},
            r"Tide Table: the song has no tune\. Write its tune in 'tune:' lines, or 'lowest:' and",
        ),
        ({"lowest": pitch("5,")}, r"Tide Table: the song has no tune but one of its ends\."),
    ],
)
def test_a_song_without_a_tune_says_how_to_mend(fields, words):
    """There is nothing to sing, and both ways out are named."""
    with pytest.raises(NoTune, match=words):
        sung_tune(chart("C", **fields), played(("C", "4/4", [("chop", (), Fraction(4))])))


LAST_CHORUS_UP = """---
title: Tide Table
key: Eb
octave: 4
form: verse, chorus, [key +2], chorus
---
# verse
1 | 4
tune: 5, 1 2 3 | 4 - - -
# chorus
5 | 1
tune: 5 - 3 1 | 1' - - -
"""


def test_a_chart_is_sung_as_it_is_played():
    """The chorus comes twice, the second time a whole step higher, and holds are added to their notes."""
    song = parse(LAST_CHORUS_UP)
    tune = sung_tune(song, unfold(song))
    assert heights(tune) == [-5, 0, 2, 4, 5, 7, 4, 0, 12, 9, 6, 2, 14]
    assert [sung.beats for sung in tune.notes] == [1, 1, 1, 1, 4, 2, 1, 1, 4, 2, 1, 1, 4]
    assert tune.written == read_pitch("Eb4")


@pytest.mark.parametrize("tonic", ["C", "F#", "Gb", "B", "A", "Cb"])
def test_the_key_on_paper_does_not_matter(tonic):
    """A song copied out in another key, even of seven flats, is ranked just as before."""
    song, maren = parse(LAST_CHORUS_UP), read_singer("Maren", usable="F3-D5", comfort="A3-Bb4")
    moved = rekey(song, read_note(tonic))
    here, there = (rank_keys(sung_tune(c, unfold(c)), maren) for c in (song, moved))
    assert [(f.key.tonic.pitch_class, f.cost, f.top.midi) for f in here] == [
        (f.key.tonic.pitch_class, f.cost, f.top.midi) for f in there
    ]


@pytest.mark.parametrize(
    ("minor", "line"), [("from-six", "6, 1 3 5"), ("from-one", "1 b3 5 b7"), ("natural", "1 3 5 7")]
)
def test_the_three_ways_of_minor_are_sung_alike(minor, line):
    """A C E G is the same tune in A minor, whichever way it is numbered."""
    song = parse(f"---\ntitle: Tide Table\nkey: Am\nminor: {minor}\n---\n1\ntune: {line}\n")
    tune = sung_tune(song, unfold(song))
    assert heights(tune) == [0, 3, 7, 10]
    assert [str(sung_pitch(n, song.key, read_pitch("A3"))) for n in tune.notes] == ["A3", "C4", "E4", "G4"]


def test_ends_in_the_head_follow_a_modulation():
    """Where only the ends are known, the last chorus takes them up a whole step."""
    head = "---\ntitle: Tide Table\nkey: Eb\nlowest: 5,\nhighest: 5\nform: chorus, [key +2], chorus\n---\n"
    song = parse(f"{head}# chorus\n1 | 5\n")
    assert sorted(heights(sung_tune(song, unfold(song)))) == [-5, -3, 7, 9]


def test_a_fiddle_hook_is_not_sung_where_other_sections_have_words():
    """Only sections with words count once any has them; without any, every tune does."""
    head = (
        "---\ntitle: Pilot Stairs\nkey: C\n---\n# hook\n1\ntune: 1'' 2'' 3'' -\n# verse\n1\ntune: 1 2 3 -\n"
    )
    worded, bare = parse(head + "words: down we go\n"), parse(head)
    assert sung_tune(worded, unfold(worded)).high == 4
    assert sung_tune(bare, unfold(bare)).high == 28
