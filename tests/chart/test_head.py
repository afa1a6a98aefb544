from fractions import Fraction

import pytest

from fifthwise.chart import parse, read_chart
from fifthwise.theory import Key, Metre, read_key
from tests.chart.texts import chart_of, only_fault, song


def test_a_head_holds_every_field():
    """Each field of the head reaches the chart."""
    chart = chart_of(
        "# verse\n1\nwords: On the slip\n",
        by="nobody yet",
        key="F# minor",
        meter="6/8",
        tempo="72",
        feel="slow, half-time",
        octave="3",
        lowest="5,",
        highest="b3'",
        minor="from-one",
        plain="diatonic",
        form="verse 1",
        tags="slow, harbour",
    )
    assert (chart.title, chart.by, chart.tags) == ("Slipway", "nobody yet", "slow, harbour")
    assert (chart.key, chart.metre, chart.tempo) == (read_key("F#m"), Metre(6, 8), Fraction(72))
    assert (chart.feel, chart.octave) == ("slow, half-time", 3)
    assert (str(chart.lowest.degree), chart.lowest.octave) == ("5", -1)
    assert (str(chart.highest.degree), chart.highest.octave) == ("b3", 1)
    assert (chart.minor, chart.plain) == ("from-one", "diatonic")
    assert [(item.section, item.verse) for item in chart.form] == [(0, 1)]


def test_a_silent_head_takes_the_defaults():
    """4/4, no tempo of its own, a floating tune, minor keys from six, plain numbers major."""
    chart = chart_of("1")
    assert (chart.metre, chart.tempo, chart.feel, chart.octave) == (Metre(4, 4), None, None, None)
    assert (chart.minor, chart.plain, chart.form) == ("from-six", "explicit", ())


def test_the_text_is_all_that_follows_the_first_colon():
    """A second colon, a hash and a remark sign are text: a head has no comments."""
    chart = chart_of("1", title="Ebb: # a <!-- small --> tide", by="  two  words ")
    assert chart.title == "Ebb: # a <!-- small --> tide"
    assert chart.by == "two  words"


def test_a_remark_sign_in_the_head_swallows_nothing():
    """What looks like an open remark in a title does not reach into the bars."""
    assert len(parse(song("1 | 4 <!-- here --> | 5", title="Ebb <!--")).sections[0].bars) == 3


@pytest.mark.parametrize(
    ("written", "read"),
    [('"Ebb"', "Ebb"), ('"', '"'), ('""Ebb""', '"Ebb"'), ('"Ebb" tide', '"Ebb" tide'), ('" Ebb "', "Ebb")],
)
def test_enclosing_double_quotes_are_dropped(written, read):
    """One pair of quotes round the whole text goes; others stay."""
    assert chart_of("1", title=written).title == read


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Eb", "Eb"),
        ("F# minor", "F# minor"),
        ("Am", "A minor"),
        ("D mixolydian", "D mixolydian"),
        ("E♭", "Eb"),
        ("f# minor", "F# minor"),
    ],
)
def test_keys_are_read_as_musicians_write_them(text, key):
    """Letters with their mode, short or long."""
    assert str(chart_of("1", key=text).key) == key


@pytest.mark.parametrize("text", ["96", "96.5", "193/2", "20", "400"])
def test_a_tempo_is_kept_exactly(text):
    """Felt beats a minute, as an exact fraction."""
    assert chart_of("1", tempo=text).tempo == Fraction(text)


@pytest.mark.parametrize(
    ("fields", "column", "what", "fix"),
    [
        ({"tempoo": "96"}, 1, "unknown field 'tempoo'", "Did you mean 'tempo'?"),
        ({"metre": "3/4"}, 1, "unknown field 'metre'", "Did you mean 'meter'?"),
        ({"Tempo": "96"}, 1, "unknown field 'Tempo'", "Did you mean 'tempo'?"),
        ({"  zzz": "x"}, 3, "unknown field 'zzz'", "Known fields are title, by, key"),
        ({"tempo": "fast"}, 8, "'fast' is no tempo", "Write felt beats a minute, as in '96'"),
        ({"tempo": "1e99999999"}, 8, "'1e99999999' is no tempo", "Write felt beats"),
        ({"tempo": "9"}, 8, "the tempo 9 is out of range", "Write 20 to 400"),
        ({"tempo": "100/0"}, 8, "'100/0' is no tempo", "Write felt beats"),
        ({"meter": "4"}, 8, "'4' is no metre", "Write it as in '3/4', '6/8' or '7/8 2+2+3'"),
        ({"meter": "7/8"}, 8, "does not say how its eighths are grouped", "'7/8 2+2+3'"),
        ({"meter": "7/8 2+2+2"}, 8, "add up to 6", "Make them add up to 7"),
        ({"octave": "high"}, 9, "'high' is no octave", "octave 4 begins at middle C"),
        ({"lowest": "H"}, 9, "'H' is no degree of a tune", "Write it as in"),
        ({"lowest": "5", "highest": "1"}, 10, "the highest degree lies below the lowest", "Swap them"),
        ({"minor": "from-sex"}, 8, "'from-sex' is no way of numbering", "Did you mean 'from-six'?"),
        ({"minor": "x"}, 8, "'x' is no way of numbering", "Write from-six, from-one, natural"),
        ({"plain": "diatonik"}, 8, "'diatonik' is no way of numbering", "Did you mean 'diatonic'?"),
        ({"key": "H"}, 6, "'H' is no key", "Write a tonic and a mode"),
        ({"key": "G# major"}, 6, "would have 8 sharps", "Write Ab"),
        ({"key": "D mixolidian"}, 6, "has no mode 'mixolidian'", "Did you mean 'mixolydian'?"),
        ({"by": ""}, 1, "the field 'by' is empty", "Write its text, or leave it out"),
        ({"title": "x" * 201}, 8, "the field 'title' has 201 characters", "Write at most 200"),
        ({"by": "x" * 10_000}, 5, "the field 'by' has 10000 characters", "Write at most 200"),
        ({"title": '""'}, 1, "the field 'title' is empty", "Write its text"),
    ],
)
def test_a_field_at_fault_says_so_at_its_place(fields, column, what, fix):
    """The column is that of the text at fault, or of the field's name; the rest is read."""
    fault = only_fault("1", **fields)
    assert fault.column == column
    assert what in fault.what
    assert fix in fault.fix


def test_a_near_miss_can_be_typed_in_its_place():
    """The likely field comes as a mend too."""
    assert only_fault("1", feal="shuffle").mends == ("feel",)


def test_a_field_given_twice_is_a_fault_and_the_first_counts():
    """Two keys would be a guess."""
    reading = read_chart("---\ntitle: Slipway\nkey: G\nkey: A\n---\n1")
    (fault,) = reading.faults
    assert (fault.line, fault.column, fault.what) == (4, 1, "the field 'key' is given twice")
    assert reading.chart.key == read_key("G")


@pytest.mark.parametrize("name", ["title", "key"])
def test_title_and_key_are_required(name):
    """Each is missed by name, at the head's first line."""
    lines = {"title": "title: Slipway", "key": "key: C"}
    (fault,) = read_chart("\n".join(["---", *(v for k, v in lines.items() if k != name), "---", "1"])).faults
    assert (fault.line, fault.column, fault.what) == (1, 1, f"the head has no {name}")
    assert fault.fix.startswith("Add a line")


def test_a_line_of_the_head_without_a_colon_is_a_fault():
    """Lists and prose do not belong in a head."""
    (fault,) = read_chart("---\ntitle: Slipway\nkey: C\n- a list\n---\n1").faults
    assert (fault.line, fault.column, fault.what) == (4, 1, "this line of the head is no field")


@pytest.mark.parametrize(
    ("text", "line", "what", "bars"),
    [
        ("", 1, "the chart is empty", 0),
        ("   \n\n", 1, "the chart is empty", 0),
        ("1 | 4 | 5", 1, "the chart does not begin with its head", 3),
        ("title: Slipway\nkey: C\n---\n1 | 4", 1, "the chart does not begin with its head", 2),
        ("Notes\n---\ntitle: Slipway\nkey: C\n---\n1 | 4", 1, "the chart does not begin with its head", 2),
        ("---\ntitle: Slipway\nkey: C\n# verse\n1 | 4", 1, "the head is not closed", 2),
        ("---\ntitle: Slipway\nkey: C\n\n1 | 4 | 5", 1, "the head is not closed", 3),
    ],
)
def test_a_broken_head_is_one_fault_and_the_bars_are_read(text, line, what, bars):
    """A head that does not begin or end is said once; what can be read is read."""
    reading = read_chart(text)
    assert [(f.line, f.what) for f in reading.faults if "no bars" not in f.what] == [(line, what)]
    assert sum(len(section.bars) for section in reading.chart.sections) == bars


def test_a_head_without_fields_misses_both():
    """All faults come at once."""
    assert [f.what for f in read_chart("---\n---\n1").faults] == [
        "the head has no title",
        "the head has no key",
    ]


def test_blank_lines_may_stand_before_and_in_a_head():
    """They say nothing."""
    assert parse("\n\n---\ntitle: Slipway\n\nkey: C\n---\n1").key == Key(read_key("C").tonic)
