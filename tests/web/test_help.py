"""The page *Help*."""

import re

import pytest

from fifthwise.page import SIGNS
from fifthwise.web.help import TOPICS


def test_every_topic_is_listed_and_there(client):
    """The list of topics leads to each, and each to all others."""
    listed = set(re.findall(r'href="/help/([\w-]+)"', client.get("/help").text))
    assert listed == {topic.name for topic in TOPICS}
    for topic in TOPICS:
        page = client.get(f"/help/{topic.name}")
        assert page.status_code == 200
        assert set(re.findall(r'href="/help/([\w-]+)"', page.text)) >= listed - {topic.name}


def test_a_chart_in_the_help_is_drawn(client):
    """The first chart's text stands on the page, and its bars under it."""
    page = client.get("/help/chart-text").text
    assert "title: Paper Lantern Road" in page
    assert 'data-bar="0.0"' in page


def test_every_sign_is_explained(client):
    """The list of signs is whole."""
    page = client.get("/help/signs").text
    assert all(words in page for words in SIGNS.values())


def test_headings_can_be_linked_to(client):
    """Each entry of the contents leads to a heading."""
    page = client.get("/help/chart-text").text
    anchors = re.findall(r'href="#([^"]+)"', page)[1:]  # the first skips the rooms
    assert len(anchors) > 5
    assert all(f'id="{anchor}"' in page for anchor in anchors)


@pytest.mark.parametrize("topic", ["nothing", "chart-text.md", "%2e%2e%2fapp", "..%5capp.py"])
def test_no_other_file_can_be_read(client, topic):
    """Only the topics are there."""
    assert client.get(f"/help/{topic}").status_code == 404
