"""An evening in one file for a screen."""

import re
from pathlib import Path

from fifthwise.chart import parse
from fifthwise.page import PageView, SetPage, lay_out, set_html_page
from tests.page.test_html import Page

DEMO = Path(__file__).parents[2] / "demo"
WILD = '<script>alert("x")</script> שלום'


def pages():
    """The demo's songs in the order of their names."""
    charts = [parse(file.read_text(encoding="utf-8")) for file in sorted(DEMO.glob("*.chart.md"))]
    view = PageView(singer="Maren")
    return charts, [SetPage(lay_out(c, view, columns=4), lay_out(c, view, columns=2)) for c in charts]


def test_every_song_stands_in_the_order_and_on_its_page():
    """Each line of the running order leads to its song, each song on to the next."""
    charts, songs = pages()
    html = set_html_page(songs, name="Harbour Lamp", date="in June")
    taken = Page(html)
    assert taken.open == []
    assert taken.unbalanced == []
    for place, chart in enumerate(charts, start=1):
        assert html.count(f'href="#song-{place}"') == (1 if place == 1 else 2)
        assert len(re.findall(f'id="song-{place}"', html)) == 1
        assert f"<b>{chart.title}</b>" in html
    assert len([tag for tag, _ in taken.tags if tag == "h1"]) == 1


def test_the_file_needs_nothing_and_runs_nothing():
    """No script, no link elsewhere, no style that a strict policy would refuse in the chart."""
    _, songs = pages()
    html = set_html_page(songs, name=WILD, date=WILD, reader=WILD)
    taken = Page(html)
    assert not {tag for tag, _ in taken.tags} & {"script", "link", "iframe", "img", "object", "base", "form"}
    links = [attrs["href"] for _, attrs in taken.tags if "href" in attrs]
    assert links
    assert all(link.startswith("#") for link in links)
    assert not [attrs for _, attrs in taken.tags if "style" in attrs]
