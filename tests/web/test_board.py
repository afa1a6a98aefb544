"""The fingerboard beside a song: the chord of the bar that is touched, on the player's own instrument."""

import re
import subprocess
import sys
from html import unescape

import pytest

from fifthwise.book import add_player, add_song
from fifthwise.evening import Player, part_of
from fifthwise.strings import instrument_names
from tests.web.test_song import FRAGMENT, LANTERN, NORTHERLY, SEVEN, words

BUOY = 1


@pytest.fixture
def plays(book):
    """Add a player of an instrument; gives the word for the address."""

    def add(instrument, level="first"):
        part = part_of(instrument)
        added = Player(
            f"{instrument}, {level}", part, level if part.bowed else None, part.show, capo=part.capo
        )
        return f"player:{add_player(book, added).id}"

    return add


@pytest.fixture
def kept(book):
    """Put a song into the book; gives its number."""

    def keep(body, **fields):
        head = "".join(f"{name}: {text}\n" for name, text in {"title": "Pier", "key": "C", **fields}.items())
        return add_song(book, f"---\n{head}---\n{body}").id

    return keep


def board(client, song, **asked):
    """The panel of a song's page, which is the fragment too."""
    page = client.get(f"/songs/{song}", params=asked)
    alone = client.get(f"/songs/{song}/board", params=asked, headers=FRAGMENT)
    assert page.status_code == alone.status_code == 200
    panel = re.search(r'<details class="fold fingerboard".*?</details>', page.text, re.S)[0]
    assert alone.text.strip() == panel
    return panel


def heading(panel):
    """What the board shows, as its heading says."""
    return words(re.search(r"<h2>(.*?)</h2>", panel, re.S)[1]).removeprefix("Fingerboard ")


def picture(panel):
    """The picture in words."""
    return unescape(re.search(r"<title>(.*?)</title>", panel, re.S)[1])


def link(panel, name):
    """Where a link of the panel leads, by its words."""
    links = re.findall(r'<a [^>]*href="([^"]+)"[^>]*>(.*?)</a>', panel, re.S)
    return next(unescape(href) for href, told in links if words(told) == name)


def opens(panel):
    """What each open string is."""
    return re.findall(r"<dt>(.*?)</dt><dd[^>]*>(.*?)(?:<span.*?)?</dd>", panel)


def test_without_a_touch_the_board_shows_the_anchors(client):
    """The four chords of tonight's key, joined, with the way in words."""
    panel = board(client, LANTERN, key="Bb")
    assert heading(panel) == "the four anchors in B♭"
    assert "5: same finger, E string" in words(panel)
    assert "B♭ on the violin" in picture(panel)


def test_a_touched_bar_is_its_chord_on_the_board(client):
    """In the key that is called: the 6- of Bb is Gm; its place is told, and its slot marked in the chart."""
    panel = board(client, LANTERN, key="Bb", at="1.2.0")
    assert heading(panel) == "on the 6– Gm"
    assert "Verse, bar 3, in B♭" in words(panel)
    assert "6– is Gm" in picture(panel)
    page = client.get(f"/songs/{LANTERN}?key=Bb&at=1.2.0").text
    assert re.findall(r'data-at="([^"]+)" data-touched', page) == ["1.2.0", "1.2.0"]  # wide and narrow


def test_open_strings_tell_their_colour(client):
    """Over Gm in Bb: G is the root, D the 5, A the 9; E is not in the key.

    Counted by hand from the chord's root.
    """
    assert opens(board(client, LANTERN, key="Bb", at="1.2.0")) == [
        ("G", "root"),
        ("D", "5"),
        ("A", "9"),
        ("E", "–"),
    ]
    assert opens(board(client, LANTERN, key="Bb", see="key")) == [
        ("G", "6"),
        ("D", "3"),
        ("A", "7"),
        ("E", "–"),
    ]


def test_before_and_after_go_through_the_song_without_a_script(client):
    """Links lead from slot to slot, through the whole chart and no further."""
    told, address = [], f"/songs/{LANTERN}?key=G&at=0.0.0"
    while address:
        panel = client.get(address).text.split('<details class="fold fingerboard"')[1].split("</details>")[0]
        told.append(heading(panel))
        after = re.search(r'id="board-after" href="([^"#]+)', panel)
        address = unescape(after[1]) if after else None
    assert told[:6] == [f"on the {c}" for c in ("1 G", "5/7 D/F♯", "6– Em", "4 C", "5 D", "1 G")]
    assert told[-1] == "on the 1 G"
    assert 'id="board-before"' not in board(client, LANTERN, at="0.0.0")


def test_every_chord_of_the_song_is_a_link_to_its_first_place(client):
    """Without a script the board goes to a chord from the list, and says which it shows."""
    panel = board(client, LANTERN, key="Bb")
    chosen = client.get(link(panel, "6– Gm")).text
    assert "on the" in chosen
    panel = board(client, LANTERN, key="Bb", at="0.2.0")
    assert (
        words(re.search(r'id="board-chord-\d+"[^>]*aria-current="true"[^>]*>(.*?)</a>', panel)[1]) == "6– Gm"
    )


def test_another_key_keeps_the_touched_bar(client):
    """Every link of the key row has the place in it."""
    page = client.get(f"/songs/{LANTERN}?key=Bb&at=1.2.0").text
    row = page.split("data-key-row")[1].split("</nav>")[0]
    links = re.findall(r'href="([^"]+)"', row)
    assert len(links) == 13
    assert all("at=1.2.0" in href for href in links)


def test_letting_go_shows_the_anchors_again(client):
    """And nothing is marked."""
    panel = board(client, LANTERN, key="Bb", at="1.2.0")
    page = client.get(link(panel, "Let go")).text
    assert "data-touched" not in page
    assert "the four anchors in B♭" in words(page)


@pytest.mark.parametrize(
    ("minor", "numbers"),
    [("from-six", ("6–", "2–", "4")), ("from-one", ("1–", "4–", "♭6")), ("natural", ("1–", "4–", "6"))],
)
def test_a_minor_song_is_counted_as_it_counts(client, kept, minor, numbers):
    """The same three chords of A minor in each numbering, on the board as in the chart."""
    body = {"from-six": "6- | 2- | 4", "from-one": "1- | 4- | b6", "natural": "1- | 4- | 6"}[minor]
    number = kept(f"{body}\n", key="A minor", minor=minor)
    for bar, (counted, letters) in enumerate(zip(numbers, ("Am", "Dm", "F"), strict=True)):
        panel = board(client, number, at=f"0.{bar}.0")
        assert heading(panel) == f"on the {counted} {letters}"
        assert f"{counted} is {letters}" in picture(panel)


def test_the_key_is_the_one_that_holds_there(client, kept):
    """After a change inside a section the board is in the new key."""
    number = kept("# verse\n1 | [key +2] 1 | 4\n")
    assert "in C" in words(board(client, number, at="0.0.0"))
    panel = board(client, number, at="0.2.0")
    assert heading(panel) == "on the 4 G"
    assert "D on the violin" in picture(panel)


def test_a_section_in_two_keys_has_both(client, kept):
    """A chorus that comes back a whole step up is shown in its first key, and in the later one by a touch."""
    number = kept("# chorus\n1 | 5\n", form="chorus, [key +2], chorus")
    panel = board(client, number, at="0.1.0")
    assert heading(panel) == "on the 5 G"
    later = board(client, number, at="0.1.0.1")
    assert heading(later) == "on the 5 A"
    assert link(panel, "later in D").startswith(f"/songs/{number}?at=0.1.0.1")
    page = client.get(f"/songs/{number}?show=letters&at=0.1.0.1").text
    assert re.findall(r'data-at="([^"]+)" data-touched', page) == ["0.1.0.1"] * 2
    page = client.get(f"/songs/{number}?show=numbers&at=0.1.0.1").text
    assert re.findall(r'data-at="([^"]+)" data-touched', page) == ["0.1.0"] * 2


def test_where_nothing_sounds_the_board_has_the_key(client, kept):
    """On a rest or NC, and where one goes on."""
    number = kept("1 | NC | - | 0\n")
    for bar, silent in ((1, "NC"), (2, "NC"), (3, "rest")):
        assert heading(board(client, number, at=f"0.{bar}.0")) == f"on the {silent}: all of C"


def test_a_chord_that_goes_on_is_shown(client, kept):
    """The bar that holds it and the bar that copies it, whose one sign is marked."""
    number = kept("1 6- | - | 4 5 | %\n")
    assert heading(board(client, number, at="0.1.0")) == "on the 6– Am"
    page = client.get(f"/songs/{number}?at=0.3.1").text
    assert "on the 5 G" in words(page)
    assert re.findall(r'data-at="([^"]+)" data-touched', page) == ["0.3.0"] * 2


def test_an_odd_metre_and_a_slash_chord(client):
    """Each of the three slots of a bar of 7/8; a bass under its chord."""
    assert [heading(board(client, SEVEN, at=f"0.0.{slot}")) for slot in range(3)] == [
        "on the 1– Em",
        "on the ♭7 D",
        "on the 4 A",
    ]
    assert heading(board(client, NORTHERLY, at="0.1.0")) == "on the 7/1 D/E"


@pytest.mark.parametrize(
    ("instrument", "label", "strings"),
    [
        ("fiddle", "violin", "GDAE"),
        ("five-string violin", "five-string violin", "CGDAE"),
        ("viola", "viola", "CGDA"),
        ("cello", "cello", "CGDA"),
        ("double bass", "double bass", "EADG"),
    ],
)
def test_a_player_has_the_own_instrument(client, plays, instrument, label, strings):
    """Its strings, its picture, and no other to choose."""
    panel = board(client, LANTERN, **{"for": plays(instrument)}, at="1.2.0", board="mandolin")
    assert f"on the {label}" in picture(panel)
    assert "".join(name for name, _ in opens(panel)) == strings
    assert "<select" not in panel


def test_a_page_without_a_fingerboard_chooses_one(client, plays):
    """A trumpet's page offers every instrument, the violin first; letters as they sound."""
    panel = board(client, LANTERN, **{"for": plays("trumpet in Bb")}, key="Bb", at="1.2.0")
    assert "on the violin" in picture(panel)
    assert heading(panel) == "on the 6– Gm"
    assert "Letters as they sound." in panel
    assert re.findall(r"<option[^>]*>([^<]+)", panel) == list(instrument_names())
    assert "Viola" not in picture(panel)
    assert "on the viola" in picture(board(client, LANTERN, board="viola"))


def test_a_capo_is_the_nut(client, plays):
    """A mandolin with a capo at 3 in Bb plays what it plays in G."""
    asked = {"for": plays("mandolin"), "key": "Bb", "at": "1.2.0"}
    panel = board(client, LANTERN, **asked, capo="3")
    assert heading(panel) == "on the 6– Em"
    assert "G on the mandolin" in picture(panel)
    assert "The capo is the nut." in panel


def test_the_player_s_level_is_how_far_up_the_board_goes(client, plays):
    """Unless the address says otherwise."""
    third = plays("fiddle", "third")
    far, near = (board(client, LANTERN, **{"for": one}, see="key") for one in (third, plays("fiddle")))
    assert len(far) > len(near)
    assert re.search(r'id="hand-third"[^>]*aria-current', far)
    assert picture(board(client, LANTERN, **{"for": third}, see="key", hand="first")) == picture(near)


def test_a_bar_that_is_gone_is_told(client):
    """A kept address outlives its bar: the page stands, and says that the bar is not there."""
    panel = board(client, LANTERN, at="99.0.0")
    assert "names a bar that the song does not have" in panel
    assert link(panel, "Let go") == f"/songs/{LANTERN}#fold-board"


def test_the_panel_alone_leads_to_its_page(client):
    """An address that only scripts ask for is of use without them."""
    answer = client.get(f"/songs/{LANTERN}/board?key=Bb&at=1.2.0", follow_redirects=False)
    assert answer.status_code == 303
    assert answer.headers["location"] == f"/songs/{LANTERN}?key=Bb&at=1.2.0#fold-board"


def test_the_panel_writes_the_short_address(client):
    """A touch changes the page's address and adds nothing to the way back."""
    answer = client.get(f"/songs/{BUOY}/board?key=&at=0.1.0&see=", headers=FRAGMENT)
    assert answer.headers["hx-replace-url"] == f"/songs/{BUOY}?at=0.1.0"


def test_the_notes_to_land_on_come_from_the_chord_before(client):
    """The 5 after the 1 in Bb: its third is the 7, a half step below the 1; a scale goes over it.

    Guide tones move by the nearest step: musictheorymanual.com.
    """
    told = words(board(client, LANTERN, key="Bb", at="0.1.0"))
    assert "Land on 7: the chord’s 3, a half step down from 1" in told
    assert "Scale F major pentatonic." in told
    assert "Land on" not in board(client, LANTERN, key="Bb", see="key", at="0.1.0")


def test_advice_has_true_accidentals(client):
    """Flats and sharps of notes and of degrees alike: the b7 of E dorian, its third the 2."""
    told = words(board(client, SEVEN, key="Eb", at="0.0.1"))
    assert "♭7: the root" in told
    assert "D♭ major pentatonic" in told


def test_a_song_without_a_chord_has_the_key_s_board(client, kept):
    """There is no chord to choose."""
    panel = board(client, kept("NC | 0\n", key="A"))
    assert heading(panel) == "the four anchors in A"
    assert "see-chord" not in panel


def test_the_workbench_does_without_numpy():
    """A fingerboard is drawn, and told of, without the search for fingers, which brings numpy."""
    told = "import sys, fifthwise.web; print('numpy' in sys.modules)"
    asked = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    assert asked.stdout.strip() == "False"
