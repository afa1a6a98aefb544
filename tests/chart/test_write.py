from fifthwise.chart import parse, write_chart
from tests.chart.texts import chart_of, song


def test_the_settled_layout_aligns_the_bars():
    """Bar lines stand under one another, repeats in the same columns."""
    text = write_chart(chart_of("1|4 5|6-/b3|5\n|:4.push|5  :|x3\n1|5||4"))
    assert text.split("---\n")[2] == (
        "\n   1      | 4 5 |  6-/b3 | 5\n|: 4.push | 5 :| x3\n   1      | 5   || 4\n"
    )


def test_the_head_is_written_in_one_order_without_what_is_assumed():
    """4/4, from-six and explicit are silent."""
    chart = chart_of("1", meter="4/4", minor="from-six", plain="explicit", tags="x", by="y", tempo="96")
    assert write_chart(chart).splitlines()[:7] == [
        "---", "title: Slipway", "by: y", "key: C", "tempo: 96", "tags: x", "---"
    ]  # fmt: skip


def test_a_section_is_written_with_its_heading_lines_and_what_stands_under_them():
    """Tune, fingers, then words; a blank line before each heading."""
    under = "words: One\ntune: 1 - - - | (2 3) - 0 -\nfingers: A1 . . . | (A2 .) . . .\n"
    text = song(f'# verse x2 "soft"\n1 | 4\n{under}# out\n1\n')
    assert write_chart(parse(text)).split("---\n")[2] == (
        "\n"
        '# verse x2 "soft"\n'
        "1 | 4\n"
        "tune: 1 - - - | (2 3) - 0 -\n"
        "fingers: A1 . . . | (A2 .) . . .\n"
        "words: One\n"
        "\n"
        "# out\n"
        "1\n"
    )


def test_marks_are_written_in_one_order():
    """Endings, signs, pickup, lasting marks, a one-bar metre."""
    text = write_chart(chart_of("|: 1 | [tempo 90] [3/4] [key +2] [segno] [1.] 4 :| [2.] 5"))
    assert "[1.] [segno] [tempo 90] [key +2] [3/4] 4 :|" in text


def test_beats_are_written_as_the_language_teaches_them():
    """A dash opens a bracket, strokes lengthen elsewhere, and even shares say no more than they need."""
    for text in ("1 (- 5) / 4", "1 / 4 5", "0 / / 5", "1 4", "1 4 5 1", "(1 / 4) 5 / /", "- / 4 5"):
        assert write_chart(chart_of(f"1 | {text}")).splitlines()[-1] == f"1 | {text}"


def test_quotes_round_a_title_survive():
    """They are doubled, since one pair is dropped."""
    chart = chart_of("1", title='""Ebb""')
    assert chart.title == '"Ebb"'
    assert 'title: ""Ebb""' in write_chart(chart)
    assert parse(write_chart(chart)) == chart


def test_a_tune_written_across_lines_comes_back_under_each_line():
    """The same tune, each line with its own."""
    chart = chart_of("1\n4\ntune: 1 - - - | 2 - - -")
    assert write_chart(chart).split("---\n")[2] == "\n1\ntune: 1 - - -\n4\ntune: 2 - - -\n"
    assert parse(write_chart(chart)) == chart
