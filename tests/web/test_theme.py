"""Paper or stage."""

import pytest


def test_the_chosen_theme_stays(client):
    """It is on every page after that, until another is chosen."""
    assert "data-theme" not in client.get("/songs").text
    assert client.post("/theme", data={"theme": "stage", "back": "/songs"}).url.path == "/songs"
    assert 'data-theme="stage"' in client.get("/songs").text
    client.post("/theme", data={"theme": "none", "back": "/songs"})
    assert "data-theme" not in client.get("/songs").text


@pytest.mark.parametrize(
    "back",
    ["https://example.org/", "//example.org/", "/\\example.org", "\\\\example.org", "javascript:1", ""],
)
def test_the_way_back_never_leads_elsewhere(client, back):
    """A link that was made to lead away leads to the first page."""
    answer = client.post("/theme", data={"theme": "paper", "back": back}, follow_redirects=False)
    assert answer.headers["location"] == "/"
