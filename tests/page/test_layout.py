import pytest

from fifthwise.chart import read_chart
from fifthwise.page import PagePart, PageView, lay_out
from fifthwise.theory import Interval
from tests.page.songs import LANTERN, lantern, song

TRUMPET = PagePart("Trumpet in B♭", Interval(2, -1), names=("trumpet",))


def bars(sheet):
    """Every full bar of a sheet."""
    return [bar for section in sheet.sections for row in section.rows for bar in row.bars]


def numbers(sheet):
    """What stands large, bar by bar."""
    return [[slot.main.text for slot in bar.slots if slot.main] for bar in bars(sheet)]


def letters(sheet):
    """What stands small, in order."""
    return [slot.small.text for bar in bars(sheet) for slot in bar.slots if slot.small]


def strip(sheet):
    """The strip's lines as number and letters."""
    return [[(e.number.text, e.letters.text) for e in line.entries] for line in sheet.strip]


def signs(sheet):
    """The names in the key to the signs."""
    return [item.sign for item in sheet.legend]


def test_numbers_say_their_quality():
    """Each chord is spelled out, with signs ready for print."""
    chart = song("6-7/5 | b6maj7 | 27(b9 #11) | #4ø7 | 5sus | 7o | 5+7 | 1(5)")
    assert numbers(lay_out(chart)) == [
        ["6–7/5"], ["♭6△7"], ["27(♭9 ♯11)"], ["♯4ø7"], ["5sus"], ["7°"], ["5+7"], ["1(5)"],
    ]  # fmt: skip


def test_plain_diatonic_numbers_are_made_explicit():
    """A page says 2– where the song's text may say 2."""
    assert numbers(lay_out(song("1 | 2 | 5 | 6", plain="diatonic"))) == [["1"], ["2–"], ["5"], ["6–"]]


def test_roman_numerals_tell_quality_by_case():
    """Capitals for a major third, small letters for a minor one."""
    sheet = lay_out(song("1 | 2-7 | b7 | 7ø7"), PageView(show="roman"))
    assert numbers(sheet) == [["I"], ["ii7"], ["♭VII"], ["viiø7"]]
    assert letters(sheet) == []


def test_letters_alone_stand_large():
    """Nothing small is left."""
    sheet = lay_out(song("1 | 2-7 | 5/7 | 1(5)", key="Ab"), PageView(show="letters"))
    assert numbers(sheet) == [["A♭"], ["B♭m7"], ["E♭/G"], ["A♭5"]]


@pytest.mark.parametrize(
    ("head", "expected"),
    [
        ({"key": "Eb"}, [("1", "E♭"), ("4", "A♭"), ("5", "B♭"), ("6–", "Cm")]),
        ({"key": "F# minor"}, [("1", "A"), ("4", "D"), ("5", "E"), ("6–", "F♯m")]),
        ({"key": "F# minor", "minor": "from-one"}, [("1–", "F♯m"), ("4–", "Bm"), ("5–", "C♯m"), ("♭3", "A")]),
        ({"key": "F# minor", "minor": "natural"}, [("1–", "F♯m"), ("4–", "Bm"), ("5–", "C♯m"), ("3", "A")]),
        ({"key": "D mixolydian"}, [("1", "D"), ("4", "G"), ("5–", "Am"), ("♭7", "C")]),
        ({"key": "D dorian"}, [("1–", "Dm"), ("4", "G"), ("5–", "Am"), ("♭7", "C")]),
    ],
)
def test_the_strip_holds_the_four_chords_under_the_song(head, expected):
    """1 4 5 6–, or what takes their place in a minor key with home 1– and in a mode."""
    assert strip(lay_out(song("1", **head))) == [expected]


def test_the_strip_marks_home():
    """Home is 6– in a minor key counted from six."""
    (line,) = lay_out(song("1", key="C minor")).strip
    assert [entry.home for entry in line.entries] == [False, False, False, True]


def test_a_song_that_changes_key_has_a_strip_line_a_key():
    """The second says where it starts."""
    sheet = lay_out(lantern())
    assert strip(sheet)[1] == [("1", "F"), ("4", "B♭"), ("5", "C"), ("6–", "Dm")]
    assert [line.starts for line in sheet.strip] == ["", "3rd chorus"]
    assert sheet.sections[2].notes == ("later in F",)


def test_a_key_change_inside_a_section_is_said_at_its_bar():
    """And the old key is said where it comes back."""
    sheet = lay_out(song("# one\n1 | [key +2] 4 | 5\n# two\n1"))
    assert [bar.changes for bar in bars(sheet)] == [(), ("key D",), (), ("key C",)]
    assert sheet.strip[1].starts == "One, bar 2"
    assert letters(sheet) == ["C", "G", "A", "C"]


def test_the_road_map_tells_the_playing_order():
    """Sections in a row are counted, and a new key stands before its section."""
    road = [(stop.name, stop.times, stop.key) for stop in lay_out(lantern()).road]
    assert road == [
        ("Intro", 1, ""), ("Verse 1", 1, ""), ("Chorus", 1, ""), ("Verse 2", 1, ""), ("Chorus", 1, ""),
        ("Chorus", 1, "F"),
    ]  # fmt: skip
    assert [(s.name, s.times) for s in lay_out(song("# head x3\n1\n# tag\n5")).road] == [
        ("Head", 3),
        ("Tag", 1),
    ]


def test_a_jump_is_told_in_the_road_map():
    """After D.S. the verse comes again, then the coda."""
    chart = song("# verse\n[segno] 1 | 4 [to coda]\n# bridge\n4 | 5 [ds al coda]\n# coda\n[coda] 1")
    assert [stop.name for stop in lay_out(chart).road] == ["Verse", "Bridge", "Verse", "Coda"]


@pytest.mark.parametrize(
    ("names", "expected"), [((), ()), (("Ines", "fiddle"), ("chops on 2 and 4",)), (("bass",), ())]
)
def test_a_cue_for_one_player_stands_on_that_page_alone(names, expected):
    """A cue that names a player or an instrument is on no other page."""
    view = PageView(part=PagePart(names=names))
    assert tuple(cue.text for cue in lay_out(lantern(), view).sections[1].cues) == expected


def test_a_cue_for_everyone_is_on_every_page():
    """Whether or not the page has a player."""
    chart = song('# a "all in" "@all watch"\n"hold back" 1')
    for part in (PagePart(), TRUMPET):
        sheet = lay_out(chart, PageView(part=part))
        assert [cue.text for cue in sheet.sections[0].cues] == ["all in", "watch"]
        assert [cue.text for cue in bars(sheet)[0].cues] == ["hold back"]


def test_the_key_to_the_signs_lists_what_the_page_uses():
    """No more than stands on it, and no less."""
    assert signs(lay_out(song("1 | 4"))) == ["plain"]
    assert signs(lay_out(song("6- | 5-/7"))) == ["minor", "bass"]
    assert signs(lay_out(song("1.hold | - | 5.stop | 0"))) == ["plain", "held", "tie", "stop", "rest"]
    chart = song("|: 1.push | 4 / 5.late / | % | b7 :| x3")
    assert signs(lay_out(chart)) == ["plain", "flat", "push", "late", "same", "repeat", "times"]


def test_a_player_s_cue_brings_no_sign_and_a_tune_does():
    """The tune's signs are listed only where the tune is shown."""
    assert "octave" not in signs(lay_out(lantern()))
    assert {"octave", "line", "lasts"} <= set(signs(lay_out(lantern(), PageView(tune=True))))


def test_a_horn_reads_its_written_key():
    """Letters and strip stand in the written key; the head says what sounds."""
    sheet = lay_out(lantern(), PageView(part=TRUMPET))
    assert (sheet.key, sheet.sounds) == ("F", "E♭")
    assert (sheet.road[-1].key, sheet.sections[2].notes) == ("G", ("later in G",))
    assert sheet.reads == ("written in F, sounds in E♭",)
    assert letters(sheet)[:4] == ["F", "B♭", "Dm", "C/E"]
    assert strip(sheet)[0] == [("1", "F"), ("4", "B♭"), ("5", "C"), ("6–", "Dm")]


def test_a_horn_never_reads_more_than_seven_accidentals():
    """B major is C sharp for a B-flat horn; F sharp would be G sharp and is A flat."""
    sheet = lay_out(song("1", key="F#"), PageView(part=TRUMPET))
    assert letters(sheet) == ["A♭"]


def test_a_capo_shows_shapes_and_what_sounds():
    """In B flat with the capo at 3 the guitar plays G shapes."""
    sheet = lay_out(song("1 | 5/7", key="Bb"), PageView(part=PagePart("Guitar", capo=3)))
    assert sheet.reads == ("Capo 3 · shapes in G, sounds in B♭",)
    assert letters(sheet) == ["G", "D/F♯"]
    assert [entry.sounds.text for entry in sheet.strip[0].entries] == ["B♭", "E♭", "F", "Gm"]


def test_letters_are_read_as_a_player_likes_them_and_the_page_says_so():
    """The flat six of A flat is F flat: the page shows E and says what it stands for."""
    sheet = lay_out(song("1 | b6 | 4", key="Ab"))
    assert letters(sheet) == ["A♭", "E", "D♭"]
    assert [(r.shown, r.strict) for r in sheet.respelled] == [("E", "F♭")]
    assert lay_out(song("1 | b6", key="Ab"), PageView(show="numbers")).respelled == ()


def test_letters_alone_are_written_out_in_every_key():
    """A reader of letters cannot transpose a chorus: it stands there again in its new key."""
    sheet = lay_out(lantern(), PageView(show="letters"))
    assert [section.name for section in sheet.sections] == ["Intro", "Verse", "Chorus", "Chorus"]
    assert sheet.sections[3].rows[0].bars[0].slots[0].main.text == "B♭"
    lines = [s.rows[-1].bars[-1].right for s in sheet.sections[2:]]
    assert lines == ["double", "final"]


def test_a_minor_song_counted_from_six_says_where_home_is():
    """A stranger must not take 1 for home."""
    (note,) = lay_out(song("6- | 3", key="C minor")).notes
    assert note.startswith("Home is 6–")


def test_a_silent_tempo_is_said_as_about():
    """100 is played where the head says nothing."""
    assert lay_out(song("1")).tempo == "about 100"
    assert lay_out(song("1", tempo="96")).tempo == "96"


def test_marks_of_a_chord_are_kept():
    """Push, sixteenth push, late, stop, accent and hold."""
    slots = [
        bar.slots[0] for bar in bars(lay_out(song("1.push | 1.push16 | 1.late | 1.stop.accent | 1.hold")))
    ]
    assert [(s.push, s.sixteenth, s.late, s.stop, s.accent, s.held) for s in slots] == [
        (True, False, False, False, False, False),
        (True, True, False, False, False, False),
        (False, False, True, False, False, False),
        (False, False, False, True, True, False),
        (False, False, False, False, False, True),
    ]


def test_a_chord_held_over_bars_is_one_diamond_with_a_tie():
    """The diamond is tied out, through the bars that go on, to the last."""
    slots = [bar.slots[0] for bar in bars(lay_out(song("1.hold | - | - | 4")))]
    assert [(s.held, s.tied, s.tie_from) for s in slots] == [
        (True, True, False), (False, True, True), (False, False, True), (False, False, False),
    ]  # fmt: skip


def test_uneven_bars_carry_ticks_and_even_ones_do_not():
    """Ticks count felt beats, in eighths where the metre names groups."""
    even, uneven = bars(lay_out(song("1 4 | 6- / 5/7 1")))
    assert not even.uneven
    assert uneven.uneven
    assert [slot.beats for slot in uneven.slots] == [2, 1, 1]
    (grouped,) = bars(lay_out(song("1 4 5", meter="7/8 2+2+3")))
    assert [slot.beats for slot in grouped.slots] == [2, 2, 3]


def test_a_bar_of_another_metre_says_so():
    """For one bar alone, and where the metre changes for good and back."""
    sheet = lay_out(song("# a\n1 | [2/4] 4 | 5\n# b\n[meter 3/4] 1 | 4\n# c\n1"))
    assert [bar.metre for bar in bars(sheet)] == ["", "(2/4)", "", "3/4", "", "4/4"]


def test_repeats_vamps_and_jumps_are_told():
    """Bar lines, counts and words over the bars' ends."""
    one, two, three, four = bars(lay_out(song('1 | 4 :| x3\n|: 5 | 1 :| vamp "till cue"')))
    assert (one.left, two.right, two.times) == ("repeat", "repeat", "×3")
    assert (three.left, four.right, four.times) == ("repeat", "repeat", "vamp till cue")
    *_, last = bars(lay_out(song("[segno] 1 | 4 [to coda] | 5 [ds al coda] | [coda] 1")))
    assert (last.signs, last.right) == (("coda",), "final")


def test_a_bar_that_could_not_be_read_shows_a_question():
    """The rest of the page is whole."""
    chart = read_chart("---\ntitle: A Song\nkey: C\n---\n1 | 15 | 4 | 5").chart
    assert [bar.slots[0].shape for bar in bars(lay_out(chart))] == ["chord", "unread", "chord", "chord"]


def test_the_tune_stands_at_its_beats():
    """Degrees with octaves, divided beats joined by lines, long notes lasting."""
    sheet = lay_out(lantern(), PageView(tune=True))
    first, second, third = (bar.tune for bar in bars(sheet)[4:7])
    assert [(n.figures[0].text, float(n.at), n.divided) for n in first] == [
        ("3", 0, 0), ("3", 1, 0), ("2", 2, 1), ("1", 2.5, 1), ("2", 3, 0),
    ]  # fmt: skip
    assert [note.lasts for note in second] == [True, True]
    assert third[-1].figures[0].text == "1'"
    assert not bars(lay_out(lantern()))[4].tune


def test_words_are_shared_among_the_rows_of_a_narrow_page():
    """Nothing is lost when a line of words fills two rows."""
    wide = lay_out(lantern(), PageView(words=True)).sections[1]
    narrow = lay_out(lantern(), PageView(words=True), columns=2).sections[1]
    whole = "Down along the lantern road the river turns for home"
    assert wide.rows[0].words[0] == whole
    assert " ".join(row.words[0] for row in narrow.rows[:2]) == whole
    assert all(row.words for row in narrow.rows[:2])


def test_aligned_words_stand_under_their_bars():
    """A verse with bar lines is parted at them."""
    sheet = lay_out(song("1 | 4 | 5\nwords: one | two three | four"), PageView(words=True))
    assert [bar.words for bar in bars(sheet)] == [("one",), ("two three",), ("four",)]


def test_columns_change_places_only():
    """A narrow page shows the same slots in the same order."""
    chart = read_chart(LANTERN).chart
    wide, narrow = lay_out(chart), lay_out(chart, columns=2)
    assert [bar.slots for bar in bars(wide)] == [bar.slots for bar in bars(narrow)]
    assert (wide.strip, wide.road, wide.legend) == (narrow.strip, narrow.road, narrow.legend)


def tune(body, **head):
    """The tune of each bar: its signs, and the beats' groups in brackets where they are divided."""
    sheet = lay_out(song(body, **head), PageView(tune=True))
    return [" ".join(map(_told, bar.tune)) for bar in bars(sheet)]


def _told(note):
    sign = {"dash": "–", "hold": "=", "rest": "0"}.get(note.shape) or note.figures[0].text
    return f"{sign}{'_' * note.divided}{'+' * note.lasts}"


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("(4 5 b6) -", "4_ 5_ ♭6_+"),
        ("(2 - 3) (1 2 3)", "2_ –_ 3_ 1_ 2_ 3_"),
        ("1 (- 2 3)", "1 –_ 2_ 3_"),
        ("1 -", "1+"),
        ("(0 - 3) 1", "0_ 0_ 3_ 1"),
        ("(1 (2 3) 4) 5", "1_ –_ 2_ 3_ 4_ –_ 5"),
    ],
)
def test_a_divided_beat_is_told_in_equal_parts(written, expected):
    """Long and short are told by dashes, and what rings on past its beat is still under the line."""
    assert tune(f"1\ntune: {written}", meter="6/8") == [expected]


def test_a_pickup_s_beats_are_counted_from_its_end():
    """A lone fraction of a beat has no line, and the pair after it has its own."""
    sheet = lay_out(song("[pickup 1.5] 0\ntune: 5 (6 7)\n1\ntune: 1 - - -"), PageView(tune=True))
    notes = sheet.sections[0].rows[0].pickup.tune
    assert [(n.figures[0].text, n.divided) for n in notes] == [("5", 0), ("6", 1), ("7", 1)]


def test_the_tune_counts_as_the_chords_do():
    """In natural minor numbering 7 is the scale's own, for chords and tune."""
    assert tune("1-\ntune: 7 6 3 #7", key="E minor", minor="natural") == ["7 6 3 ♯7"]
    assert tune("1-\ntune: b7 b6 b3 7", key="E minor", minor="from-one") == ["♭7 ♭6 ♭3 7"]


def test_a_player_with_a_capo_reads_the_shapes_key():
    """Head, form and section notes stand in one key."""
    sheet = lay_out(lantern(), PageView(part=PagePart("Guitar", capo=1)))
    assert (sheet.key, sheet.sounds, sheet.road[-1].key) == ("D", "E♭", "E")
    assert lay_out(lantern()).sounds == ""


def test_a_change_of_key_is_said_as_the_player_reads_it():
    """With what sounds behind it."""
    sheet = lay_out(song("1 | [key +2] 4"), PageView(part=TRUMPET))
    assert bars(sheet)[1].changes == ("key E, sounds D",)


@pytest.mark.parametrize(
    ("metre", "note"),
    [("4/4", "quarter"), ("6/8", "dotted quarter"), ("2/2", "half"), ("7/8 2+2+3", "quarter")],
)
def test_a_tempo_says_which_note_it_counts(metre, note):
    """A ballad in six is counted in dotted quarters."""
    assert lay_out(song("1", meter=metre)).tempo_note == note


def test_a_metre_for_one_bar_is_told_in_the_key_to_the_signs():
    """It stands in brackets; a metre that lasts does not."""
    assert "metre-once" in signs(lay_out(song("1 | [2/4] 4 | 5")))
    assert "metre-once" not in signs(lay_out(song("1 | [meter 3/4] 4 | 5")))


def test_the_last_bar_line_stands_where_the_song_ends():
    """By its form, not by its text; in letters at the key in which it ends."""
    chart = song("# chorus\n1 | 4\n# turn\n5 | 5", form="chorus, turn, [key +2], chorus")
    assert [bar.right for bar in bars(lay_out(chart))] == ["bar", "final", "bar", "bar"]
    sheet = lay_out(chart, PageView(show="letters"))
    assert [section.name for section in sheet.sections] == ["Chorus", "Turn", "Chorus"]
    assert [section.notes for section in sheet.sections] == [("in C",), (), ("last time, in D",)]
    assert [bar.right for bar in bars(sheet)] == ["bar", "bar", "bar", "bar", "bar", "final"]


def test_a_song_ends_at_its_fine():
    """Where the jump leads."""
    sheet = lay_out(song("1 | 4 [fine] | 5 | 1 [dc al fine]"))
    assert [bar.right for bar in bars(sheet)] == ["bar", "final", "bar", "bar"]


def test_chords_of_a_beat_and_a_half_carry_ticks():
    """Two chords in three beats could be read as two and one."""
    (bar,) = bars(lay_out(song("1 (- 5) /", meter="3/4")))
    assert bar.uneven
    assert not bars(lay_out(song("1 4 5 1", meter="2/2")))[0].uneven


def test_a_jump_past_repeats_says_that_they_are_not_taken_again():
    """And says nothing where there are none."""
    chart = song("# a\n[segno] |: 1 | 4 :|\n# b\n5 [to coda] | 5 [ds al coda]\n# c\n[coda] 1")
    assert "jump" in signs(lay_out(chart))
    assert "jump" not in signs(lay_out(song("1 | 4 [fine] | 5 | 1 [dc al fine]")))


def test_a_power_chord_in_letters_has_its_five_at_the_root_s_height():
    """So that it is not read as a flat five."""
    sheet = lay_out(song("1(5)", key="Bb"), PageView(show="letters"))
    (slot,) = bars(sheet)[0].slots
    assert (slot.main.after, slot.main.raised) == ("♭5", "")
    assert "power" in signs(sheet)
