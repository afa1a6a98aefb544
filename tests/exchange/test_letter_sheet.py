import pytest

from fifthwise.exchange import read_letter_chart
from tests.exchange.sheets import numbers, read, told, written


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("[Verse]", "# Verse"),
        ("[Verse 1]:", "# Verse 1"),
        ("Verse:", "# Verse"),
        ("Verse 1", "# Verse 1"),
        ("  verse two  ", "# verse two"),
        ("# Verse", "# Verse"),
        ("## Pre-Chorus", "# Pre-Chorus"),
        ("CHORUS x2", "# chorus x2"),
        ("[Chorus] (x2)", "# Chorus x2"),
        ("[Chorus x 3]", "# Chorus x3"),
        ("Chorus (x2)", "# Chorus x2"),
        ("--- Intro ---", "# Intro"),
        ("=== Solo ===", "# Solo"),
        ("**Bridge**", "# Bridge"),
        ("*Bridge*", "# Bridge"),
        ("<Bridge>", "# Bridge"),
        ("[A]", "# A"),
        ("B:", "# B"),
        ("Stomp:", "# Stomp"),
        ("[Chorus] all in", '# Chorus "all in"'),
        ("Chorus (softly)", '# Chorus "softly"'),
        ('Chorus x2 "softly"', '# Chorus x2 "softly"'),
        ("[Solo, fiddle]", "# Solo fiddle"),
        ("Fiddle solo", "# Fiddle solo"),
        ("Solo (fiddle) x2", '# Solo x2 "fiddle"'),
        ("Verse 1 - 8 bars", '# Verse 1 "8 bars"'),
        ("Verse - 2", "# Verse - 2"),
    ],
)
def test_headings(typed, wanted):
    """A section opens with a heading in any of the ways that people type; loud names become quiet."""
    assert numbers(f"{typed}\n| G |") == [wanted, "1"]


@pytest.mark.parametrize(
    "typed", ["Intro: | G | C |", "[Intro] | G | C |", "Intro | G | C |", "# Intro | G | C"]
)
def test_bars_may_follow_a_heading_on_its_line(typed):
    """Then the faults have the places of the bars."""
    assert numbers(typed) == ["# Intro", "1 | 4"]
    broken = typed.replace("C", "am")
    assert told(read(f"T\n{broken}").faults) == [
        f"2:{broken.index('am') + 1}: 'am' is no chord. Did you mean 'Am'?"
    ]


def test_the_facts_of_the_song():
    """Title, writer, key, tempo, metre and feel, on lines of their own or several on one."""
    sheet = "Low Water\nby A. Fiddler\nKey: D   Tempo: about 96 bpm   Time: 3/4\nFeel: shuffle\n| D | G |"
    assert written(sheet, None) == (
        "---\ntitle: Low Water\nby: A. Fiddler\nkey: D\nmeter: 3/4\ntempo: 96\nfeel: shuffle\n---\n\n1 | 4\n"
    )


@pytest.mark.parametrize("line", ["Key of D", "key: D", "(in the key of D)", "Key = D"])
def test_the_key_may_stand_on_the_sheet(line):
    """In any of its ways of writing."""
    assert written(f"T\n{line}\n| D |", None).endswith("1\n")


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("♩ = 120", "tempo: 120"),
        ("120 bpm", "tempo: 120"),
        ("Tempo 120", "tempo: 120"),
        ("3/4", "meter: 3/4"),
        ("Time signature: 6/8", "meter: 6/8"),
        ("Time: cut", "meter: 2/2"),
    ],
)
def test_tempo_and_metre_may_stand_alone(line, wanted):
    """As they stand at the top of a sheet."""
    assert wanted in written(f"T\n{line}\n| G |").split("\n")


def test_what_was_asked_for_comes_before_what_the_sheet_says():
    """The key and the title asked for are taken, and a notice names the other key."""
    reading = read("Low Water\nKey: A\n| G |")
    assert str(reading.chart.key) == "G"
    (notice,) = told(reading.notices)
    assert notice.startswith("2:6: the letters are counted in G, as was asked, not in A. Ask for A if")


def test_a_sheet_without_a_title_is_called_as_its_file():
    """The name of the file without its suffix."""
    reading = read("| G |")
    assert reading.chart.title == "song"
    assert told(reading.notices) == [
        "1:1: the chart has no title; it is called 'song'. Write it in the first line"
    ]


def test_the_first_heading_may_be_the_title():
    """In Markdown the title is a heading too; the name of a part of a song is none."""
    assert read("# Low Water\n\n## Verse\n| G |").chart.title == "Low Water"
    assert read("# Verse\n| G |").chart.sections[0].name == "Verse"


def test_a_new_key_counts_from_there_on():
    """Letters after it are counted in it, in the sections that follow too."""
    sheet = "[A]\n| G | C |\nKey: A\n| A | D |\n[B]\n| A |\nModulate to Bb\n| Bb |"
    assert numbers(sheet) == ["# A", "1 | 4", "[key A] 1 | 4", "# B", "[key A] 1", "[key Bb] 1"]


def test_a_section_that_is_only_named_is_played_again():
    """``[Chorus]`` alone is the chorus, ``Verse 2`` the verse with other words; a form says so."""
    sheet = "T\n[Verse 1]\n| G |\none\n[Chorus]\n| C |\n[Verse 2]\ntwo\nChorus x2\n"
    assert written(sheet) == (
        "---\ntitle: T\nkey: G\nform: Verse 1, Chorus, Verse 1, Chorus x2\n---\n\n"
        "# Verse 1\n1\nwords: one\nwords: two\n\n# Chorus\n4\n"
    )


def test_a_section_named_after_a_new_key_is_played_in_it():
    """The numbers of the chorus stay, and the form changes the key."""
    sheet = "T\n[Chorus]\n| G | D |\nKey: A\n[Chorus]\n"
    assert "form: Chorus, [key A], Chorus" in written(sheet)


def test_two_sections_of_one_name_are_told_apart_where_a_form_names_them():
    """A second chorus with other bars gets a number, and a notice."""
    reading = read("T\n[Chorus]\n| G |\n[Chorus]\n| C |\n[Chorus]\n")
    assert [section.name for section in reading.chart.sections] == ["Chorus", "Chorus 2"]
    assert [item.section for item in reading.chart.form] == [0, 1, 1]
    (notice,) = told(reading.notices)
    assert notice.startswith(
        "4:2: the name 'Chorus' stands over other bars already; these are called 'Chorus 2'"
    )


def test_lines_under_bars_are_sung():
    """They are kept as words, bar by bar where they are set so."""
    assert numbers("| G | C |\nDown along | the road\nLyrics: down along") == [
        "1 | 4",
        "words: Down along | the road",
        "words: down along",
    ]
    assert numbers("| G |\nthe bridge")[1] == "words: the bridge"
    assert numbers("| G |\nBridge over the weir")[1] == "words: Bridge over the weir"
    assert numbers("| G | C |\nDown | along | the | road")[1] == "words: Down along the road"


@pytest.mark.parametrize(
    ("line", "what"),
    [
        ("<!-- ask her -->", "this remark is left out"),
        ("// ask her about this", "this remark is left out"),
        ("e|--0--2--|", "this line of tablature is left out"),
        ("Strum: D DU UDU", "this line of strokes is left out"),
        ("D DU UDU", "this line of strokes is left out"),
        ("Capo 2", "the letters are read as written, without the capo at 2"),
        ("Form: verse, chorus", "the order of the sections is left out"),
        ("Tempo: slow", "'slow' is no number of beats a minute"),
        ("a line before any bars", "'a line before any bars' is left out"),
        ("[Verse]\nwords before bars", "'words before bars' is left out"),
    ],
)
def test_what_a_chart_cannot_hold_is_told(line, what):
    """Nothing is dropped without a word."""
    reading = read(f"Title\n{line}\n| G |")
    assert reading.faults == ()
    assert [notice.what for notice in reading.notices] == [what]


def test_a_capo_is_told_with_the_key_that_sounds():
    """The letters are shapes; the notice names the key that is heard."""
    (notice,) = told(read("T\nCapo: 3rd fret\n| Am |", "Am").notices)
    assert notice.startswith(
        "2:7: the letters are read as written, without the capo at 3. The song sounds in Cm"
    )
    assert read("T\nCapo: none\n| Am |").notices == ()


@pytest.mark.parametrize(
    ("minor", "wanted"), [("from-six", "6- | 4 | 3"), ("from-one", "1- | b6 | 5"), ("natural", "1- | 6 | 5")]
)
def test_minor_songs_count_as_asked(minor, wanted):
    """Home in E minor is 6- of G, or 1-.

    Source: the three ways of numbering minor that teaching hand-outs name.
    """
    assert written("T\n| Em | C | B |", "Em", minor).endswith(f"\n{wanted}\n")


@pytest.mark.parametrize(
    "line", ["Key: Bb   3/4  Tempo 132", "3/4, Key: Bb, 132 bpm", "Key: Bb | Time: 3/4 | Tempo: 132"]
)
def test_facts_may_share_a_line(line):
    """Commas, strokes and wide gaps part them; those without a name are known by their form."""
    reading = read_letter_chart(f"Blue Slip\n{line}\n| Bb | F/A |\n", "slip.txt")
    assert (reading.faults, reading.notices) == ((), ())
    chart = reading.chart
    assert (str(chart.key), str(chart.metre), chart.tempo) == ("Bb", "3/4", 132)


def test_a_comma_within_a_feel_parts_nothing():
    """What follows is no fact of its own."""
    reading = read_letter_chart("Blue Slip\nKey: G\nFeel: straight, light sixteenths\n| G |\n", "slip.txt")
    assert reading.chart.feel == "straight, light sixteenths"
