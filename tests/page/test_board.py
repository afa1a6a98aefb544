"""What a picture of a fingerboard must show and say."""

import xml.etree.ElementTree as ET
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.page import BoardSubject, BoardView, board_part, board_svg
from fifthwise.strings import (
    LEVELS,
    anchor_routes,
    degree_places,
    instrument_names,
    instrument_of,
    stop_mm,
    tuned,
)
from fifthwise.strings.fingering import Line, LineNote, finger_line
from fifthwise.theory import Numbering, called_chords, degree_of, read_chord, read_key, read_pitch
from tests.strategies import keys

SVG = "{http://www.w3.org/2000/svg}"
instruments = st.sampled_from(instrument_names()).map(instrument_of)


def subject(name, key, way="from-six"):
    """An instrument in a key."""
    return BoardSubject(instrument_of(name), read_key(key), Numbering(way))


def root_of(text):
    """The SVG as a tree, with or without its name space."""
    return ET.fromstring(text.replace(' xmlns="http://www.w3.org/2000/svg"', ""))


def signs(text):
    """Each place's sign: string and stop, and its box as left, top, right, bottom."""
    found = {}
    for element in root_of(text).iter():
        if element.get("data-string"):
            place = int(element.get("data-string")), int(element.get("data-stop"))
            assert place not in found
            found[place] = element
    return found


def box(element):
    """Left, top, right and bottom of a sign."""
    if element.tag == "circle":
        x, y, r = (float(element.get(name)) for name in ("cx", "cy", "r"))
        return x - r, y - r, x + r, y + r
    corners = [tuple(map(float, pair.split(","))) for pair in element.get("points").split()]
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def written(text):
    """All that is written in a picture."""
    return [node.text for node in root_of(text).iter("text")]


def middle(element):
    """Where a round sign lies."""
    return float(element.get("cx")), float(element.get("cy"))


@given(instruments, keys(), st.sampled_from(LEVELS), st.booleans())
def test_every_place_has_one_sign_and_none_touch(instrument, key, level, horizontal):
    """Each degree's place up to the highest stop is drawn once, and no two signs overlap."""
    view = BoardView(level=level, horizontal=horizontal)
    found = signs(board_svg(BoardSubject(instrument, key), view))
    numbering = Numbering()
    wanted = degree_places(
        instrument, numbering.scale(key), numbering.one(key), highest=view.highest(instrument)
    )
    assert set(found) == {(each.place.string, each.place.stop) for each in wanted}
    for one, other in combinations(map(box, found.values()), 2):
        assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


@given(instruments, keys(), st.sampled_from(LEVELS))
def test_a_telephone_can_read_it(instrument, key, level):
    """Upright it is no wider than a telephone of 320, and no text in it is smaller than 14."""
    text = board_part(BoardSubject(instrument, key), BoardView(level=level, mm=True))
    root = root_of(text)
    assert float(root.get("width")) <= 320
    assert min(float(node.get("font-size")) for node in root.iter("text")) >= 14
    assert all(box(e)[0] >= 0 and box(e)[2] <= float(root.get("width")) for e in signs(text).values())


@pytest.mark.parametrize("name", ["violin", "cello", "double bass", "six-string"])
def test_places_lie_at_true_distances(name):
    """Along a string the signs lie as the millimetres of its stops: x = L(1 - 2^(-n/12)).

    Derived: equal temperament on an ideal string.
    """
    instrument = instrument_of(name)
    places = {place: e for place, e in signs(board_svg(subject(name, "C"))).items() if place[1]}
    ys = {}
    for place, element in places.items():
        if element.tag == "circle":
            ys[place] = middle(element)[1]
    (low, y_low), (high, y_high) = min(ys.items(), key=lambda e: e[1]), max(ys.items(), key=lambda e: e[1])
    mm = {place: stop_mm(instrument.length_mm, place[1]) for place in ys}
    scale = (y_high - y_low) / (mm[high] - mm[low])
    for place, y in ys.items():
        assert y - y_low == pytest.approx(scale * (mm[place] - mm[low]), abs=0.05)


def test_shape_tells_1_4_5_and_6():
    """The 1 is round; 4, 5 and 6 have as many corners as their number; the others have no outline."""
    board = subject("violin", "Bb")
    found = signs(board_svg(board))
    for each in degree_places(board.instrument, board.key.scale, board.key.tonic, highest=7):
        element = found[each.place.string, each.place.stop]
        step = each.degree.step
        if step in (4, 5, 6):
            assert len(element.get("points").split()) == step
        else:
            assert element.tag == "circle"
            assert (element.get("stroke") is not None) == (step == 1)


def test_a_chord_stands_out_without_colour():
    """On the 6- its root is filled, its third and fifth have a strong line, and the rest is fainter."""
    board = subject("violin", "Bb")
    chord = read_chord("6-", board.key)
    found = signs(board_svg(board, BoardView(chord=chord)))
    looks = {}
    for each in degree_places(board.instrument, board.key.scale, board.key.tonic, highest=7):
        element = found[each.place.string, each.place.stop]
        look = element.get("fill") == "currentColor", float(element.get("stroke-width"))
        assert looks.setdefault(str(each.degree), look) == look
    assert looks["6"][0]
    assert not any(filled for degree, (filled, _) in looks.items() if degree != "6")
    assert looks["1"][1] == looks["3"][1] > 2 * looks["4"][1] == 2 * looks["5"][1]


def test_a_chord_may_bring_notes_from_outside_the_key():
    """The 4- of C has its b6 on the board, which C without a chord has not."""
    board = subject("violin", "C")
    assert "♭6" not in written(board_svg(board))
    assert "♭6" in written(board_svg(board, BoardView(chord=read_chord("4-", board.key))))


def test_anchors_are_joined_where_one_finger_has_them():
    """Between 4, 1 and 5 under one finger stand thick lines, and a dotted one leads to the 6-."""
    board = subject("violin", "B")
    text = board_svg(board, BoardView(anchors=True))
    found = signs(text)
    route = anchor_routes(board.instrument, board.key)[0]
    one, _, _, six = [(a.at.place.string, a.at.place.stop) for a in route.anchors]
    ends = middle(found[one])
    lines = [
        (line, tuple(float(line.get(n)) for n in ("x1", "y1", "x2", "y2")))
        for line in root_of(text).iter("line")
    ]
    thick = [at for line, at in lines if line.get("stroke-width") == "6" and at[:2] == ends]
    assert len(thick) == 2
    assert sorted(x2 - x1 for x1, _, x2, _ in thick)[0] < 0 < sorted(x2 - x1 for x1, _, x2, _ in thick)[1]
    assert found[six].get("stroke-dasharray")
    dotted = [at for line, at in lines if line.get("stroke-dasharray") == "2 4"]
    left, _, right, _ = box(found[six])
    assert any((left + right) / 2 == pytest.approx(at[2], abs=0.1) for at in dotted)
    assert "6–" in written(text)


@given(st.sampled_from(["violin", "viola", "cello", "double bass"]), keys(), st.sampled_from(LEVELS))
def test_anchors_are_drawn_wherever_a_way_is_shown(name, key, level):
    """The four called roots are on the board, and nothing else."""
    instrument = instrument_of(name)
    view = BoardView(anchors=True, level=level)
    found = signs(board_svg(BoardSubject(instrument, key), view))
    roots = [chord.root for chord in called_chords(key, Numbering())]
    wanted = degree_places(instrument, roots, Numbering().one(key), highest=view.highest(instrument))
    assert set(found) == {(each.place.string, each.place.stop) for each in wanted}


def line_of(names, key, name="violin", degrees=True):
    """A line of quarters with its fingers."""
    tonic = read_key(key).tonic
    pitches = [read_pitch(each) for each in names.split()]
    notes = tuple(
        LineNote((p,), Fraction(i), Fraction(1), degrees=(degree_of(p.name, tonic),) if degrees else ())
        for i, p in enumerate(pitches)
    )
    return finger_line(Line(notes), instrument_of(name))


def test_a_chord_is_named_with_true_signs():
    """A diminished chord has its degree sign, a minor one its dash, and each has its letters."""
    for number, told in (("7o7", "7°7 is Bdim7"), ("4maj7", "4△7 is Fmaj7"), ("6-", "6– is Am")):
        view = BoardView(chord=read_chord(number, read_key("C")))
        assert told in written(board_svg(subject("violin", "C"), view))


def test_fingers_at_the_side_are_of_one_hand():
    """Where a way starts in half position, no finger of first position stands at the side."""
    text = board_svg(subject("double bass", "Bb"), BoardView(level="half", anchors=True, legend=False))
    small = [
        n.text
        for n in root_of(text).iter("text")
        if n.get("font-size") == "14" and n.get("text-anchor") == "end"
    ]
    assert small == ["1", "4"]


def test_a_line_is_numbered_where_it_is_played():
    """Each place of the line is drawn once, with its turns in order and its finger behind a bar."""
    path = line_of("Bb4 C5 D5 C5 Bb4", "Bb")
    text = board_svg(subject("violin", "Bb"), BoardView(path=path))
    stops = {(s.string, s.stop) for note in path.notes for s in note.stops}
    assert set(signs(text)) == stops
    assert {"1. 5.", "2. 4.", "3."} <= set(written(text))
    fingers = {str(s.finger) for note in path.notes for s in note.stops}
    assert fingers <= set(written(text))


def test_a_line_is_shown_to_its_highest_place():
    """A line in third position makes the board longer, and a harmonic in it is a lozenge."""
    tonic = read_key("D").tonic
    pitches = [read_pitch(each) for each in ["B5", "D6", "E7"]]
    notes = tuple(
        LineNote((p,), Fraction(i), Fraction(1), degrees=(degree_of(p.name, tonic),))
        for i, p in enumerate(pitches)
    )
    path = finger_line(Line(notes), instrument_of("violin"), "third", harmonics=True)
    text = board_svg(subject("violin", "D"), BoardView(path=path))
    found = signs(text)
    strings = [e for e in root_of(text).iter("line") if e.get("class") == "rule-line"]
    assert min(float(e.get("y2")) for e in strings) > max(box(e)[3] for e in found.values())
    stops = {(s.string, s.stop): s.harmonic for note in path.notes for s in note.stops}
    assert set(found) == set(stops)
    assert max(stop for _, stop in stops) > 7
    assert any(stops.values())
    for place, harmonic in stops.items():
        left, top, right, bottom = box(found[place])
        lozenge = found[place].tag == "polygon" and right - left == pytest.approx(bottom - top, abs=0.1)
        assert bool(harmonic) == (lozenge and len(found[place].get("points").split()) == 4)


def test_a_line_without_a_key_has_its_notes_names():
    """Where no degrees are known the note's name stands in the sign."""
    path = line_of("Bb4 C5", "Bb", degrees=False)
    assert {"B♭", "C"} <= set(written(board_svg(subject("violin", "Bb"), BoardView(path=path))))


def test_harmonics_tell_what_sounds():
    """Each of a string's three harmonics stands beside its node, since in G all of them sound the scale."""
    text = board_svg(subject("violin", "G"), BoardView(level="third", harmonics=True))
    diamonds = [
        e
        for e in root_of(text).iter("polygon")
        if len(e.get("points").split()) == 4 and e.get("data-stop") is None
    ]
    # two more stand in the key to the signs: the square of the 4, and the harmonic itself
    assert len(diamonds) == 3 * 4 + 2


def test_a_page_takes_it_without_any_style_of_its_own():
    """The part has no style, no script, one class; a file brings its paper, dark where its viewer is."""
    part = board_part(subject("viola", "Ab"), BoardView(anchors=True))
    assert "style" not in part
    assert "<script" not in part
    assert {e.get("class") for e in root_of(part).iter()} == {"board", None}
    whole = board_svg(subject("viola", "Ab"))
    assert "prefers-color-scheme: dark" in whole
    assert ET.fromstring(whole).find(f"{SVG}rect").get("class") == "paper"


def test_it_is_told_in_words():
    """The title names key and instrument; the account says what each string has, and with which finger."""
    root = ET.fromstring(
        board_svg(subject("violin", "Eb"), BoardView(chord=read_chord("6-", read_key("Eb"))))
    )
    assert root.find(f"{SVG}title").text == "E♭ on the violin"
    told = root.find(f"{SVG}desc").text
    assert told.startswith("6– is Cm. Fingers of first position. G string:")
    assert "D string: 7 open; 1 low first finger; 2 low second finger; 3 third finger" in told
    assert (
        "E string: 2 low first finger; 3 low second finger; 4 low third finger; 5 low fourth finger" in told
    )


def test_a_minor_key_shows_its_home():
    """G minor has its home filled: the 6 where it counts from six, the 1 where home is 1-."""
    for way, number in (("from-six", "6"), ("from-one", "1"), ("natural", "1")):
        text = board_svg(subject("violin", "Gm", way))
        assert signs(text)[0, 0].get("fill") == "currentColor"
        assert written(text).count(number) > 0


def test_another_tuning_has_its_strings_by_name():
    """A violin in A E A E names its strings with octaves, thick to thin."""
    violin = tuned(instrument_of("violin"), "AEAE")
    text = board_svg(BoardSubject(violin, read_key("A")))
    assert [t for t in written(text) if t in ("A3", "E4", "A4", "E5")] == ["A3", "E4", "A4", "E5"]
    widths = [
        float(e.get("stroke-width")) for e in root_of(text).iter("line") if e.get("class") == "rule-line"
    ]
    assert widths == sorted(widths, reverse=True)
    assert len(widths) == 4
