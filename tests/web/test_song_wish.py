"""What is asked of a song's page, and its address."""

from urllib.parse import parse_qsl, urlsplit

from hypothesis import given
from hypothesis import strategies as st

from fifthwise.evening import SHOWS, part_names, part_of
from fifthwise.strings import LEVELS, instrument_names
from fifthwise.web.song_wish import MOST_CAPO, Wish, address, read_wish

numbers = st.none() | st.integers(1, 10**8)
switches = st.none() | st.booleans()
concert = tuple(name for name in part_names() if not part_of(name).written.fifths)


@st.composite
def wishes(draw):
    """Any wish: for a singer, a player or nobody; a capo only where the part takes one."""
    singer = draw(numbers)
    part = draw(st.sampled_from(("", *part_names())))
    return Wish(
        key=draw(st.text(max_size=12)).strip(),
        show=draw(st.sampled_from((None, *SHOWS))),
        singer=singer,
        player=None if singer else draw(numbers),
        part=part,
        capo=draw(st.none() | st.integers(0, MOST_CAPO)) if part in ("", *concert) else None,
        tune=draw(switches),
        words=draw(switches),
        only=draw(st.booleans()),
        at=draw(st.none() | st.tuples(*[st.integers(0, 9999)] * 4)),
        see=draw(st.sampled_from((None, "chord", "anchors", "key"))),
        hand=draw(st.sampled_from((None, *LEVELS))),
        board=draw(st.sampled_from(("", *instrument_names()))),
    )


@given(wishes())
def test_an_address_holds_all_of_a_wish(wish):
    """A wish written into an address and read again is the same wish."""
    parts = urlsplit(address(7, wish))
    assert parts.path == "/songs/7"
    assert read_wish(dict(parse_qsl(parts.query))) == wish


@given(wishes())
def test_a_link_changes_one_thing(wish):
    """With another key all else stays."""
    query = dict(parse_qsl(urlsplit(address(7, wish, key="F#m")).query))
    old = dict(parse_qsl(urlsplit(address(7, wish)).query))
    assert query.pop("key") == "F#m"
    old.pop("key", None)
    assert query == old
