from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.strings.bowing import BarFault, BarNote, bow_directions
from fifthwise.theory import read_metre
from tests.strings.bowing.strategies import phrases

FOUR, THREE = read_metre("4/4"), read_metre("3/4")


def bar(text, width=Fraction(1, 2)):
    """A bar of columns: ``n`` a note, ``~`` a slurred one, ``r`` a rest, ``-`` holds on, ``.`` a gap."""
    columns = text.split()
    heads = [place for place, column in enumerate(columns) if column != "-"]
    return tuple(
        BarNote(place * width, (after - place) * width, columns[place] == "~", columns[place] == "r")
        for place, after in zip(heads, [*heads[1:], len(columns)], strict=True)
        if columns[place] != "."
    )


def said(bars, metre=FOUR, **switches):
    """Directions as letters, a bar's in one word; hooks and retakes with a sign, rests as dots."""
    signs = {"hooked": "^", "retake": "!", "slur": "~"}
    return " ".join(
        "".join((b.direction or ".")[0] + signs.get(b.change, "") for b in bowed)
        for bowed in bow_directions(bars, metre, **switches)
    )


@given(phrases(), st.booleans(), st.booleans())
def test_a_slur_never_turns_the_bow(phrase, pickup, down_first):
    """A note slurred on goes the way of the note before it, over bar lines too."""
    metre, written = phrase
    bowed = [b for each in bow_directions(written, metre, pickup=pickup, down_first=down_first) for b in each]
    for before, after in pairwise(bowed):
        if after.note.slurred:
            assert (after.direction, after.change) == (before.direction, "slur")


@given(phrases(), st.booleans())
def test_a_bar_that_begins_with_a_new_note_begins_down(phrase, pickup):
    """The rule of the down-bow holds for every bar but the pickup."""
    metre, written = phrase
    for number, each in enumerate(bow_directions(written, metre, pickup=pickup)):
        first = each[0] if each else None
        if first and first.note.onset == 0 and not (first.note.rest or first.note.slurred):
            assert first.direction == "down" or (pickup and number == 0)


@given(phrases(), st.booleans(), st.booleans())
def test_a_direction_that_comes_again_is_said(phrase, pickup, down_first):
    """Two new bows in one direction are a hook or a retake, and nothing else is."""
    metre, written = phrase
    bowed = [b for each in bow_directions(written, metre, pickup=pickup, down_first=down_first) for b in each]
    last = None
    for b in bowed:
        if b.note.rest:
            assert (b.direction, b.change) == (None, None)
            continue
        if b.change != "slur":
            again = {"first"} if last is None else {"hooked", "retake"} if last == b.direction else {"turn"}
            assert b.change in again
            assert b.change != "hooked" or b.direction == "up"
        last = b.direction


@given(phrases(), st.booleans(), st.booleans())
def test_notes_come_back_as_they_were_given(phrase, pickup, down_first):
    """Bowing adds to the notes and changes none."""
    metre, written = phrase
    bowed = bow_directions(written, metre, pickup=pickup, down_first=down_first)
    assert tuple(tuple(b.note for b in each) for each in bowed) == written


@given(phrases())
def test_as_it_comes_the_bow_turns_with_every_new_note(phrase):
    """Without the rule nothing is hooked or retaken."""
    metre, written = phrase
    changes = {b.change for each in bow_directions(written, metre, down_first=False) for b in each}
    assert changes <= {"first", "turn", "slur", None}


@given(phrases())
def test_a_pickup_ends_up(phrase):
    """The last bow of a pickup is up, however many it has."""
    metre, written = phrase
    bowed = [b for b in bow_directions(written, metre, pickup=True)[0] if b.direction]
    assert not bowed or bowed[-1].direction == "up"


@pytest.mark.parametrize(
    ("bars", "metre", "expected"),
    [
        # eight even eighths
        (["n n n n n n n n"] * 2, FOUR, "dudududu dudududu"),
        # a dotted quarter and an eighth are two bows, so nothing needs setting right
        (["n - - n n - n -"] * 2, FOUR, "dudu dudu"),
        # three quarters: the last is hooked where a bar follows, and not at the end
        (["n - n - n -"] * 2, THREE, "duu^ dud"),
        # one bow a bar: lifted and taken again
        (["n - - - - - - -"] * 3, FOUR, "d d! d!"),
        # a slurred pair and one: two bows
        (["n - ~ - n -"] * 2, THREE, "dd~u dd~u"),
        # a rest frees the bow: no hook before it, down on a beat, up off it
        (["n - n - n - r -"] * 2, FOUR, "dud. d!ud."),
        (["r n n n r n n -"], FOUR, ".udu.u!d"),
        (["n . . n n - . n"], FOUR, "dudu"),
        # a silence over the bar line frees the bow too
        (["n - - - . . . .", ". . . . n - n -"], FOUR, "d d!u"),
        # slurred over the bar line: the bar is slurred into, so it does not begin down
        (["n n n n n n n n", "~ n n n n n n n"], FOUR, "dudududu u~dududud"),
    ],
)
def test_usual_bars_come_out_as_players_bow_them(bars, metre, expected):
    """The rule of the down-bow with its hooks and retakes. Common practice, no source."""
    assert said([bar(text) for text in bars], metre) == expected


def test_a_pickup_leads_down_into_the_first_bar():
    """One note comes up, two come down and up, and the first bar needs no setting right."""
    one = [bar(". . . . . . . n"), bar("n - - - n - - -")]
    two = [bar(". . . . . . n n"), bar("n - - - n - - -")]
    assert said(one, pickup=True) == "u du"
    assert said(two, pickup=True) == "du du"


def test_uneven_metres_are_strong_where_their_groups_begin():
    """After a rest, a note at the start of a group comes down and one inside it up."""
    metre = read_metre("7/8 2+2+3")
    assert said([bar("n n r - n n n")], metre) == "du.dud"
    assert said([bar("n n n r - n n")], metre) == "dud.ud"


@pytest.mark.parametrize(
    ("bars", "message"),
    [
        (
            [bar("~ n")],
            "bar 1, 0 quarters in: a slur has no note to come from. Begin the note with a new bow",
        ),
        ([bar("n - r - . . . ."), bar("~ -")], "bar 2, 0 quarters in: a slur has no note to come from"),
        ([bar("n . ~")], "bar 1, 1 quarters in: a slur has no note to come from"),
        ([bar("n - - - - - - - -")], "from 0 to 9/2 is not inside its bar. Keep it between 0 and 4."),
        ([(BarNote(Fraction(0), Fraction(0)),)], "has no length. Give it more than 0 quarters."),
        (
            [(BarNote(Fraction(0), Fraction(2)), BarNote(Fraction(1), Fraction(1)))],
            "bar 1, 1 quarters in: the note begins before the one before it ends, at 2.",
        ),
    ],
)
def test_bars_that_cannot_be_bowed_say_where(bars, message):
    """The fault names the bar, the place and the mend."""
    with pytest.raises(BarFault) as caught:
        bow_directions(bars, FOUR)
    assert message in str(caught.value)
