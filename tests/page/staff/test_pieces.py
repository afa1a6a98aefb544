from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.page.staff.beams import beams
from fifthwise.page.staff.model import StaffBar, StaffNote
from fifthwise.page.staff.pieces import written_pieces
from fifthwise.page.staff.spans import beats_of
from fifthwise.theory import read_key, read_metre, read_pitch
from tests.strategies import metres

C, A = read_key("C"), (read_pitch("A4"),)


def bar_of(metre, lengths):
    """A bar of notes one after the other; a negative length is silence."""
    notes, at = [], Fraction(0)
    for length in map(Fraction, lengths):
        if length > 0:
            notes.append(StaffNote(at, length, A))
        at += abs(length)
    return StaffBar(read_metre(metre), at, C, notes=tuple(notes))


def written(metre, *lengths):
    """The signs of a bar: ``4.`` a dotted quarter, ``~`` a tie to the next, ``r`` a rest."""
    return " ".join(
        f"{'r' if piece.note is None else ''}{piece.duration}{'.' * piece.dots}"
        f"{'' if piece.last or piece.note is None else '~'}"
        for piece in written_pieces(bar_of(metre, lengths))
    )


@pytest.mark.parametrize(
    ("metre", "lengths", "signs"),
    [
        ("4/4", [4], "1"),
        ("4/4", [3, 1], "2. 4"),
        ("4/4", [1, 3], "4 4~ 2"),
        ("4/4", [1, 2, 1], "4 2 4"),
        ("4/4", ["1/2", 1, 1, 1, "1/2"], "8 4 8~ 8 4 8"),
        ("4/4", ["3/2", "1/2", 2], "4. 8 2"),
        ("4/4", ["1/2", "3/2", 2], "8 4. 2"),
        ("4/4", ["5/2", "3/2"], "2~ 8 4."),
        ("4/4", [1, -3], "4 r4 r2"),
        ("4/4", [2, -2], "2 r2"),
        ("4/4", [-1, 2, -1], "r4 2 r4"),
        ("3/4", [-1, 2], "r4 2"),
        ("3/4", [1, -2], "4 r4 r4"),
        ("3/4", [3], "2."),
        ("6/8", [3], "2."),
        ("6/8", ["3/2", "3/2"], "4. 4."),
        ("6/8", [1, "1/2", "1/2", 1], "4 8 8 4"),
        ("6/8", [1, 1, 1], "4 8~ 8 4"),
        ("6/8", ["1/2", -1, "3/2"], "8 r8 r8 4."),
        ("6/8", [-1, "1/2", "3/2"], "r4 8 4."),
        ("12/8", ["9/2", "3/2"], "2.~ 4. 4."),
        ("7/8 2+2+3", ["7/2"], "2~ 4."),
        ("7/8 2+2+3", ["1/2", 1, "1/2", "3/2"], "8 8~ 8 8 4."),
        ("2/2", [2, -2], "2 r2"),
    ],
)
def test_signs_show_the_beats(metre, lengths, signs):
    """The middle of a bar, and every beat, stay visible where a reader counts by them.

    Common practice, no source.
    """
    assert written(metre, *lengths) == signs


def beamed(metre, *lengths):
    """The places of the notes under each beam."""
    bar = bar_of(metre, lengths)
    return [list(run) for run in beams(written_pieces(bar), bar.metre)]


@pytest.mark.parametrize(
    ("metre", "count", "groups"),
    [
        ("6/8", 6, [3, 3]),
        ("9/8", 9, [3, 3, 3]),
        ("12/8", 12, [3, 3, 3, 3]),
        ("3/8", 3, [3]),
        ("7/8 2+2+3", 7, [2, 2, 3]),
        ("7/8 3+2+2", 7, [3, 2, 2]),
        ("5/8 3+2", 5, [3, 2]),
        ("2/4", 4, [4]),
        ("3/4", 6, [2, 2, 2]),
        ("4/4", 8, [4, 4]),
        ("5/4", 10, [2, 2, 2, 2, 2]),
        ("2/2", 8, [4, 4]),
    ],
)
def test_eighths_are_beamed_as_the_metre_is_counted(metre, count, groups):
    """A beam is a beat: three eighths where a beat is dotted, the named groups, a half of 2/4 and 4/4.

    Source: Elaine Gould, Behind Bars (2011), chapter "Metre", from memory; the last two common practice.
    """
    assert [len(run) for run in beamed(metre, *["1/2"] * count)] == groups


def test_a_sixteenth_parts_the_eighths_of_a_half_bar():
    """Only where all four are eighths do two beats share a beam."""
    assert beamed("4/4", "1/2", "1/4", "1/4", "1/2", "1/2", 2) == [[0, 1, 2], [3, 4]]


def test_a_beam_does_not_leave_a_tuplet_that_it_entered_midway():
    """A rest, two notes in the time of a triplet, and an eighth: the beam ends with the triplet."""
    sixth = Fraction(1, 6)
    assert beamed("4/4", -sixth, sixth, sixth, "1/2", 3) == [[1, 2]]


@st.composite
def divided_bars(draw):
    """Bars whose beats are divided as a chart divides them, some of it silent, some held on."""
    metre = draw(metres())
    lengths: list[Fraction] = []
    for beat in beats_of(metre):
        parts = draw(st.sampled_from((1, 1, 2, 3, 4, 5, 6, 7)))
        for _ in range(parts):
            length = beat.length / parts
            if lengths and lengths[-1] > 0 and draw(st.integers(0, 3)) == 0:
                lengths[-1] += length
            else:
                lengths.append(length * draw(st.sampled_from((1, 1, 1, -1))))
    return bar_of(str(metre), lengths)


@settings(deadline=None)
@given(divided_bars())
def test_signs_fill_the_bar_and_each_note(bar):
    """Signs follow one another, last as long as they are written, and make up each note and the bar."""
    at = Fraction(0)
    lengths = dict.fromkeys(bar.notes, Fraction(0))
    for piece in written_pieces(bar):
        assert piece.start == at
        at = piece.end
        value = (Fraction(4, piece.duration) if piece.duration else Fraction(8)) * (
            2 - Fraction(1, 2**piece.dots)
        )
        assert piece.tuplet is None or piece.tuplet.number > piece.tuplet.base > 1
        scale = Fraction(piece.tuplet.base, piece.tuplet.number) if piece.tuplet else 1
        assert value * scale == piece.end - piece.start
        if piece.note:
            lengths[piece.note] += piece.end - piece.start
            assert piece.first == (piece.start == piece.note.at)
    assert at == bar.length
    assert all(length == note.length for note, length in lengths.items())


@settings(deadline=None)
@given(divided_bars())
def test_a_beam_stays_within_its_beats(bar):
    """No beam holds a rest or a quarter, and none reaches over a beat but where two beats of eighths join."""
    pieces = written_pieces(bar)
    edges = {beat.start for beat in beats_of(bar.metre)}
    for run in beams(pieces, bar.metre):
        under = [pieces[at] for at in run]
        assert len(under) > 1
        assert all(piece.note and piece.duration >= 8 for piece in under)
        inside = [edge for edge in edges if under[0].start < edge < under[-1].end]
        assert len(inside) <= 1
        assert not inside or all(piece.duration == 8 and not piece.tuplet for piece in under)
