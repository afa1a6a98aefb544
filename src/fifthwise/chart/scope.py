"""Key, metre, tempo and feel as they hold from place to place."""

from dataclasses import dataclass, replace
from fractions import Fraction

from fifthwise.chart.model import Chart, KeyShift, ScopedMark, Section
from fifthwise.theory import Key, Metre, NoteName, in_fewest_accidentals, move_key

__all__ = [
    "DEFAULT_FEEL",
    "DEFAULT_TEMPO",
    "Scope",
    "apply_marks",
    "head_scope",
    "moved_key",
    "opening_scope",
    "section_scopes",
    "shifted_key",
]

DEFAULT_TEMPO = Fraction(100)
DEFAULT_FEEL = "straight"
MOST_SIGNS = 7


@dataclass(frozen=True, slots=True)
class Scope:
    """What holds at a place.

    Attributes
    ----------
    entry_key : Key
        The key in which the section was entered, from which ``[key +n]`` counts.
    tempo_bpm : Fraction
        Quarters a minute, so that an eighth stays an eighth when the metre changes.
    """

    key: Key
    entry_key: Key
    metre: Metre
    tempo_bpm: Fraction
    feel: str


def opening_scope(chart: Chart) -> Scope:
    """What the head sets."""
    return head_scope(chart.key, chart.metre, chart.tempo, chart.feel)


def head_scope(key: Key, metre: Metre, tempo: Fraction | None, feel: str | None) -> Scope:
    """What holds where nothing but the head has spoken."""
    bpm = (tempo or DEFAULT_TEMPO) * metre.tempo_unit
    return Scope(key, key, metre, bpm, feel or DEFAULT_FEEL)


def apply_marks(scope: Scope, marks: tuple[ScopedMark, ...], head_key: Key) -> Scope:
    """The scope once a bar's marks hold: the metre first, since a tempo counts its beats."""
    for mark in sorted(marks, key=lambda m: m.metre is None):
        scope = apply_mark(scope, mark, head_key)
    return scope


def apply_mark(scope: Scope, mark: ScopedMark, head_key: Key) -> Scope:
    """The scope once a mark holds."""
    if mark.key is not None:
        return replace(scope, key=_marked_key(mark.key, scope.entry_key, head_key))
    if mark.metre is not None:
        return replace(scope, metre=mark.metre)
    if mark.tempo is not None:
        return replace(scope, tempo_bpm=mark.tempo * scope.metre.tempo_unit)
    return replace(scope, feel=mark.feel or scope.feel)


def _marked_key(shift: KeyShift, entry_key: Key, head_key: Key) -> Key:
    """The key of a mark inside a section; a named one moves with the section it stands in."""
    by = entry_key.tonic.fifths - head_key.tonic.fifths
    return shifted_key(shift, entry_key, head_key) if shift.key is None else moved_key(shift.key, by)


def moved_key(key: Key, by: int) -> Key:
    """A key moved ``by`` fifths, respelled where it would have more than seven sharps or flats."""
    moved = Key(NoteName(key.tonic.fifths + by), key.mode)
    return moved if abs(moved.signature) <= MOST_SIGNS else in_fewest_accidentals(moved)


def section_scopes(section: Section, entry: Scope, head_key: Key) -> tuple[Scope, ...]:
    """What holds at each bar of a section entered with ``entry``; a mark in an ending ends with it."""
    scope = before_ending = entry
    in_ending = False
    scopes = []
    for bar in section.bars:
        if bar.endings:
            scope = before_ending if in_ending else scope
            before_ending, in_ending = scope, True
        if bar.marks:
            scope = apply_marks(scope, bar.marks, head_key)
        scopes.append(scope)
        if in_ending and (bar.repeat_end or bar.double_bar):
            scope, in_ending = before_ending, False
    return tuple(scopes)


def shifted_key(shift: KeyShift, origin: Key, head_key: Key) -> Key:
    """The key that a mark leads to, counted from ``origin``; sharps settle a tie if the head has them."""
    if shift.key is not None:
        return shift.key
    return move_key(origin, shift.semitones, sharps=head_key.signature > 0)
