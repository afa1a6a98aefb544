"""What a song's page on a screen must hold, and what it must never do."""

import re
from html.parser import HTMLParser

import pytest

from fifthwise.chart import parse, read_chart, written_places
from fifthwise.page.html import html_page, lyrics_html_page
from fifthwise.page.html_fit import bar_need, shares
from fifthwise.page.html_words import figure_words
from fifthwise.page.layout import lay_out
from fifthwise.page.layout_bar import Figure
from fifthwise.page.layout_view import PagePart, PageView
from fifthwise.page.lyrics import lyric_sheet
from fifthwise.theory import Interval
from tests.page.songs import song

WILD = '<script>alert("x")</script> שלום 🎻 & "q"'
SONG = """---
title: Paper Lantern Road
key: Eb
tempo: 96
octave: 4
---
# intro "drums"
|: 1 | 4 | 6- | 5/7 :|

# verse
[pickup 1] 0
tune: 5,
6-7.push | b7 / 5sus 1 | 4maj7.stop | 1.hold
tune: 3 3 (2 1) 2 | 3 - 5 - | 6 (5 6) 1' - | 6 - 5 0
words: Down along | the lantern | road the | river
"""
VIEW = PageView(singer="Maren", part=PagePart("Violin"), tune=True, words=True)


class Page(HTMLParser):
    """A page taken apart: its tags with their attributes, and the text outside style."""

    def __init__(self, html):
        super().__init__()
        self.tags, self.open, self.text, self.unbalanced = [], [], [], []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        """Keep a tag; a void one is not opened."""
        self.tags.append((tag, dict(attrs)))
        if tag != "meta":
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        """Keep a tag that closes itself."""
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        """Close a tag, or note that it was not open."""
        if self.open and self.open[-1] == tag:
            self.open.pop()
        else:
            self.unbalanced.append(tag)

    def handle_data(self, data):
        """Keep text."""
        if "style" not in self.open:
            self.text.append(data)

    def of(self, name):
        """The attributes of every element that has a class."""
        return [attrs for _, attrs in self.tags if name in (attrs.get("class") or "").split()]


def page(text=SONG, view=VIEW):
    """A song's page, both layouts in it."""
    chart = parse(text)
    return html_page(lay_out(chart, view, columns=4), lay_out(chart, view, columns=2))


def test_the_page_is_whole_and_closed():
    """Every element that opens is closed in its turn, and both layouts are in it."""
    taken = Page(page())
    assert taken.open == []
    assert taken.unbalanced == []
    assert len(taken.of("wide")) == len(taken.of("narrow")) == 1


def test_the_page_loads_nothing_and_runs_nothing():
    """No script, no link, no address but data in the file."""
    html = page()
    taken = Page(html)
    assert not {tag for tag, _ in taken.tags} & {"script", "link", "iframe", "img", "object", "base", "form"}
    assert not [
        name for _, attrs in taken.tags for name in attrs if name in ("src", "href") or name[:2] == "on"
    ]
    assert {address[:5] for address in re.findall(r"url\(([^)]*)\)", html)} == {"data:"}
    assert "@import" not in html


def test_the_chart_carries_no_inline_styles():
    """The style is the style sheet's alone, so that the same chart stands under a strict policy."""
    assert not [attrs for _, attrs in Page(page()).tags if "style" in attrs]


def test_all_that_a_user_wrote_is_text():
    """Title, author, feel, cues, words, section and singer show their markup instead of running it."""
    text = (
        SONG.replace("Paper Lantern Road", WILD)
        .replace("# verse", f"# {WILD}")
        .replace("tempo: 96", "tempo: 96\nby: " + WILD)
    )
    text = text.replace('"drums"', '"<b>drums</b> שלום 🎻"').replace("Down along", "<i>Down</i> along")
    html = page(text, PageView(singer=WILD, part=PagePart(WILD), words=True))
    tags = {tag for tag, _ in Page(html).tags}
    assert "script" not in tags
    assert not Page(html).unbalanced
    shown = "".join(Page(html).text)
    for written in (WILD, "<b>drums</b> שלום 🎻", "<i>Down</i> along"):
        assert written in shown


def test_every_bar_is_said_in_words():
    """Who hears the page is told each bar with its number, its letters and its marks, once a layout."""
    said = [re.sub(r"\s+", " ", text) for text in Page(page()).text]
    assert "Bar 3: 6 minor; C minor" not in said
    assert said.count("Bar 3: 6 minor, C minor") == 2
    assert said.count("Bar 1: repeat begins; 1, E flat") == 2
    assert said.count("Bar 4: 5 over 7, B flat over D; repeat ends") == 2
    assert any(text.startswith("Bar 2: 6 minor 7, C minor 7, pushed an eighth early") for text in said)
    assert any("held" in text for text in said)


def test_what_is_only_drawn_is_hidden_from_those_who_hear():
    """The drawn chords are hidden, the layout that is not shown is display:none."""
    html = page()
    assert {attrs.get("aria-hidden") for attrs in Page(html).of("box")} == {"true"}
    assert ".narrow { display: none; }" in html


@pytest.mark.parametrize(
    ("figure", "words"),
    [
        (Figure("♭", "7"), "flat 7"),
        (Figure("", "6", "–", "7"), "6 minor 7"),
        (Figure("", "4", "", "△7"), "4 major 7"),
        (Figure("", "5", "", "", "7"), "5 over 7"),
        (Figure("", "E", "♭m", "7", "B♭"), "E flat minor 7 over B flat"),
        (Figure("", "5", "", "7(♭9 ♯11)"), "5 7 flat 9 sharp 11"),
    ],
)
def test_a_chord_is_said_as_a_musician_says_it(figure, words):
    """Signs become words."""
    assert figure_words(figure) == words


def test_headings_name_the_song_and_its_sections():
    """One first heading, and a second for each section in each layout."""
    tags = [tag for tag, _ in Page(page()).tags]
    assert tags.count("h1") == 1
    assert tags.count("h2") == 2 * 2 + 1


def test_the_strip_stands_on_the_page():
    """Tonight's 1, 4, 5 and 6- are written with their letters."""
    text = re.sub(r"\s+", " ", "".join(Page(page()).text))
    for pair in ("1E♭", "4A♭", "5B♭", "6–Cm"):
        assert pair in text


def test_a_bar_that_could_not_be_read_stands_as_a_question():
    """The rest of the chart goes on."""
    chart = read_chart(SONG.replace("6- | 5/7", "8 | 5/7")).chart
    html = html_page(lay_out(chart, columns=4))
    assert "Bar 3: unread" in "".join(Page(html).text)


def test_slots_share_a_bar_by_their_beats():
    """The b7 has two beats of four, the others one each; a bar of three chords needs more than one of one."""
    sheet = lay_out(parse(SONG), columns=4)
    verse = sheet.sections[1].rows[0].bars
    assert shares(tuple(slot.length for slot in verse[1].slots)) == (2, 1, 1)
    assert bar_need(verse[1]) > bar_need(verse[3])


def test_every_class_that_sizes_a_bar_is_in_the_style_sheet():
    """A share or a need without a rule would leave a bar unsized."""
    html = page()
    used = {
        c
        for _, attrs in Page(html).tags
        for c in (attrs.get("class") or "").split()
        if re.match(r"[ghknce]\d+\Z", c)
    }
    assert used
    for name in used:
        assert f".{name} " in html


def test_the_singers_page_holds_every_word_and_the_note_to_start_on():
    """Words in order, chords as text, nothing loaded, markup shown."""
    html = lyrics_html_page(lyric_sheet(parse(SONG.replace("Down", "<u>Down")), singer="Maren"), show="both")
    taken = Page(html)
    text = re.sub(r"\s+", " ", " ".join(taken.text))
    assert not taken.unbalanced
    assert "Starts on B♭3, the 5" in text
    positions = [text.find(word) for word in ("<u>Down", "lantern", "road", "river")]
    assert positions == sorted(positions)
    assert -1 not in positions
    assert "script" not in {tag for tag, _ in taken.tags}


def test_a_horn_s_page_leads_with_its_written_key_and_says_what_sounds():
    """And the tempo with the note that it counts."""
    part = PagePart("Trumpet in B♭", Interval(2, -1))
    shown = html_page(lay_out(song("1 | 4", meter="6/8", tempo="52"), PageView(part=part)))
    assert "</span>D<small" in shown
    assert "sounds C" in shown
    assert "52 to the dotted quarter" in shown


def test_a_divided_beat_is_joined_by_a_line():
    """From its first sign up to its last; a note alone in its beat has none."""
    shown = html_page(lay_out(song("1\ntune: (2 - 3) 1", meter="6/8"), PageView(tune=True)))
    assert shown.count(" d1 joins") == 2
    assert shown.count(" d1") == 3


def test_letters_alone_explain_a_bass_in_letters():
    """No degree after the stroke on a page that has none."""
    shown = html_page(lay_out(song("1/3"), PageView(show="letters")))
    assert "/G" in shown
    assert "/3" not in shown.split("<footer>")[1]


@pytest.mark.parametrize("columns", [4, 2])
def test_every_slot_says_where_it_is_written(columns):
    """Section, bar and slot as the chart counts them, and the turn where letters write a section again."""
    chart = song("# a\n1 | 4 5 | % | NC\n# b\n- | 0 1.hold / /\n", form="a, b, [key +2], a, b")
    page = html_page(lay_out(chart, PageView(show="letters"), columns=columns))
    drawn = [tuple(map(int, at.split("."))) for at in re.findall(r'data-at="([^"]+)"', page)]
    wanted = [
        (p.section, p.bar, p.slot, p.turn)
        for p in written_places(chart)
        if not (p.copied and p.slot)  # the sign of a copied bar stands for all of it
    ]
    assert sorted((*at, 0)[:4] for at in drawn) == sorted(wanted)
