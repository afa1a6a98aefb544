"""Files that something has gone wrong with: read as far as they make sense, or refused, and nothing else."""

import random
from html import escape

from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.chart import parse, unfold, write_chart
from fifthwise.errors import FifthwiseError
from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.musicxml import pack_musicxml, read_musicxml, write_musicxml
from tests.exchange.musicxml.scores import attributes, bar, harmony, note, read, score
from tests.exchange.test_lead_sheet import SONGS

ROUNDS = 400
PIECES = (
    *(b"<", b">", b"</", b"/>", b'"', b"&amp;", b"&x;", b"\x00", b"\xff", b"-1", b"0", b"999999999", b"1/3"),
    *(b"<note>", b"</note>", b"<measure>", b"<chord/>", b"<grace/>", b"<rest/>", b"<kind>other</kind>"),
    b"<backup><duration>99</duration></backup>",
    b"<forward><duration>7</duration></forward>",
    b"<transpose><chromatic>-13</chromatic></transpose>",
    b"<time><beats>5+0</beats><beat-type>64</beat-type></time>",
    b'<repeat direction="backward"/>',
    b'<ending number="2" type="start"/>',
    b'<sound dacapo="yes"/>',
)
TEXTS = st.text('ab x2"|#@:-[]()<>&{}%/,.~_♭\n\t', max_size=10) | st.sampled_from(
    [
        "verse x2",
        "# a",
        "@all x",
        "---",
        "[coda]",
        "Fine",
        "To Coda",
        "D.C. al Fine",
        "D.S.",
        "hold",
        "<!-- x",
    ]
)
SOUNDS = ("dacapo='yes'", "dalsegno='s'", "tocoda='c'", "coda='c'", "fine='yes'", "segno='s'", "tempo='77.7'")
STARTS = ("", "", "", *(f'<ending number="{number}" type="start"/>' for number in ("1", "2", "1, 2", "3")))
ENDS = ("", "", '<ending number="1" type="stop"/>', '<ending number="2" type="discontinue"/>')
FORWARD = ("", "", '<repeat direction="forward"/>')
BACKWARD = ("", "", '<repeat direction="backward"/>', '<repeat direction="backward" times="3"/>')


def settled(data):
    """Read a file: a chart that can be played and written, or a fault that helps; anything else is ours."""
    made = fault = None
    try:
        made = chart_of_sheet(read_musicxml(data, "broken.xml").sheet).chart
    except FifthwiseError as caught:
        fault = caught
    if made is None:
        assert all((fault.what, fault.where, fault.fix))
        return False
    assert parse(write_chart(made)) == made
    unfold(made)
    return True


def mutated(data, chance):
    """A file with a few pieces cut, doubled, swapped or put in."""
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(data))
        size = chance.choice((1, 1, 5, 40, 400))
        piece = chance.choice((b"", chance.choice(PIECES), data[at : at + size] * 2))
        data = data[:at] + piece + data[at + chance.choice((0, size)) :]
    return data


def test_a_file_with_pieces_cut_and_doubled_is_read_or_refused():
    """No mutation of a file, plain or packed, makes anything but a sound chart or a fault that helps."""
    chance = random.Random(370)
    files = [write_musicxml(parse(path.read_text("utf-8"), path.name)) for path in SONGS]
    sound = 0
    for turn in range(ROUNDS):
        data = chance.choice(files)
        if turn % 8 == 0:
            data = pack_musicxml(data)
        sound += settled(mutated(data, chance))
    assert 0 < sound < ROUNDS


@st.composite
def bars(draw):
    """Bars with any texts, signs, repeats and endings, in any order."""
    found = []
    for at in range(draw(st.integers(1, 5))):
        kinds = draw(st.lists(st.sampled_from(("rehearsal", "words", "segno", "coda")), max_size=2))
        said = "".join(f"<direction-type><{k}>{escape(draw(TEXTS))}</{k}></direction-type>" for k in kinds)
        left = draw(st.sampled_from(STARTS)) + draw(st.sampled_from(FORWARD))
        right = draw(st.sampled_from(ENDS)) + draw(st.sampled_from(BACKWARD))
        lengths = draw(st.lists(st.sampled_from((1, 2, 4 / 3, 0.5)), min_size=1, max_size=4))
        found.append(
            bar(
                attributes() if at == 0 else "",
                f"<direction>{said}</direction>",
                f'<barline location="left">{left}</barline>',
                harmony(draw(st.sampled_from("CDEFG"))) if draw(st.booleans()) else "",
                *(note("C5", n, f"<lyric><text>{escape(draw(TEXTS))}</text></lyric>") for n in lengths),
                f"<sound {draw(st.sampled_from(SOUNDS))}/>" if draw(st.booleans()) else "",
                f"<barline>{right}</barline>",
                implicit=draw(st.booleans()),
            )
        )
    return found


@settings(deadline=None)
@given(bars(), TEXTS, TEXTS)
def test_any_way_through_a_song_makes_a_chart_that_plays(inside, title, name):
    """Whatever signs, repeats and texts a file has, its chart reads again, plays, and goes out and in."""
    head = f"<work><work-title>{escape(title)}</work-title></work>"
    found = read(score(*inside, name=escape(name), head=head))
    made = chart_of_sheet(found.sheet).chart
    assert parse(write_chart(made)) == made
    again = chart_of_sheet(read_musicxml(write_musicxml(made)).sheet).chart
    assert unfold(again).length == unfold(made).length
