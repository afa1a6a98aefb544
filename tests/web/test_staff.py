"""The panel *Staff* of a song."""

import re
from io import BytesIO

from pypdf import PdfReader

SHOWN = "?staff=1"
HTMX = {"HX-Request": "true"}


def _song_id(client, title):
    page = client.get("/songs").text
    return re.search(rf'href="/songs/(\d+)"><bdi>{title}', page)[1]


def test_the_staff_is_engraved_only_when_it_is_asked_for(client):
    """A song's page offers it in words; the picture comes with the address that names it, for two widths."""
    at = f"/songs/{_song_id(client, 'Gull on the Crane')}"
    closed, shown = client.get(at).text, client.get(at + SHOWN).text
    assert "the tune in D mixolydian, treble clef" in closed
    assert 'class="staff"' not in closed
    assert shown.count('class="staff"') == 2
    assert "Staff: Gull on the Crane in D mixolydian, treble clef" in shown


def test_a_script_gets_the_panel_alone(client):
    """Opening it asks for the panel, and the address then names it; without a script one is led there."""
    at = f"/songs/{_song_id(client, 'Gull on the Crane')}/staff?key=A"
    answer = client.get(at, headers=HTMX)
    assert answer.text.lstrip().startswith("<details")
    assert answer.headers["HX-Replace-Url"].endswith("?key=A&staff=1")
    led = client.get(at, follow_redirects=False)
    assert led.status_code == 303
    assert led.headers["location"].endswith("?key=A&staff=1#fold-staff")


def test_the_staff_follows_the_part_that_is_chosen(client):
    """Viola reads its clef; a trumpet in Bb reads a tone higher."""
    at = f"/songs/{_song_id(client, 'Gull on the Crane')}"
    assert "the tune in D mixolydian, alto clef" in client.get(f"{at}?part=viola").text
    assert "the tune in E mixolydian, treble clef" in client.get(f"{at}?part=trumpet+in+Bb").text


def test_a_song_without_a_tune_has_no_staff(client):
    """Nothing is offered that there is nothing to show of."""
    at = f"/songs/{_song_id(client, 'Black Buoy')}{SHOWN}"
    assert "fold-staff" not in client.get(at).text


def test_nothing_in_the_picture_is_barred_by_the_policy(client):
    """No style, script or handler stands in it, and no name stands twice on the page."""
    shown = client.get(f"/songs/{_song_id(client, 'Gull on the Crane')}{SHOWN}").text
    pictures = "".join(re.findall(r'<svg[^>]*class="staff".*?</svg>', shown, re.DOTALL))
    assert not re.search(r"<script|<style| style=| on\w+=|href=\"[^#]", pictures)
    names = re.findall(r' id="([^"]+)"', shown)
    assert len(names) == len(set(names))


def test_the_staff_is_taken_away_as_it_is_seen(client):
    """Print has a page for it where it is shown, the file for a screen too; the picture is one file."""
    at = f"/songs/{_song_id(client, 'Gull on the Crane')}"
    pages = [
        len(PdfReader(BytesIO(client.get(f"{at}/song.pdf{more}").content)).pages) for more in ("", SHOWN)
    ]
    assert pages == [1, 2]
    assert 'class="staff"' in client.get(f"{at}/song.html{SHOWN}").text
    assert 'class="staff"' not in client.get(f"{at}/song.html").text
    picture = client.get(f"{at}/staff.svg?part=viola")
    assert picture.headers["content-type"] == "image/svg+xml"
    assert "Staff: Gull on the Crane in D mixolydian, alto clef" in picture.text


def test_a_song_without_a_tune_has_no_picture(client):
    """It says what to write."""
    answer = client.get(f"/songs/{_song_id(client, 'Black Buoy')}/staff.svg")
    assert answer.status_code == 422
    assert "the song has no tune" in answer.text
