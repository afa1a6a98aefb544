"""Chord qualities: a triad sign, a base and changes, as the chart text writes them.

The tones of each base follow Harte et al., ISMIR 2005 (the shorthands of their chord syntax): a 13
stacks every third, the 11 included, though players often leave it out.
"""

import re
from dataclasses import dataclass

from fifthwise.theory.degree import degree_from, degree_interval
from fifthwise.theory.errors import ChordFault
from fifthwise.theory.note import Interval

__all__ = ["BASES", "MAJOR", "TRIADS", "Quality", "make_quality", "quality_tones"]

# The third and the fifth of each triad sign.
TRIADS = {"": ("3", "5"), "-": ("b3", "5"), "o": ("b3", "b5"), "ø": ("b3", "b5"), "+": ("3", "#5")}
# What each base adds to its triad. A base with a suspended note has no third.
BASES = {
    "": (),
    "6": ("6",),
    "69": ("6", "9"),
    "7": ("b7",),
    "maj7": ("7",),
    "9": ("b7", "9"),
    "maj9": ("7", "9"),
    "11": ("b7", "9", "11"),
    "maj11": ("7", "9", "11"),
    "13": ("b7", "9", "11", "13"),
    "maj13": ("7", "9", "11", "13"),
    "sus": ("4",),
    "sus2": ("2",),
    "sus4": ("4",),
    "7sus": ("4", "b7"),
    "9sus": ("4", "b7", "9"),
}
SUSPENDED = frozenset({"sus", "sus2", "sus4", "7sus", "9sus"})
SEVENTHS = frozenset({"7", "9", "11", "13"})
# Changes as written, by the name under which they are kept.
CHANGES = {
    "add2": "add9", "2": "add9", "9": "add9", "add9": "add9", "add4": "add11", "4": "add11", "11": "add11",
    "add11": "add11", "add6": "add13", "6": "add13", "13": "add13", "add13": "add13", "b9": "b9", "#9": "#9",
    "addb9": "b9", "add#9": "#9", "b10": "#9", "#11": "#11", "#4": "#11", "add#11": "#11", "add#4": "#11",
    "b13": "b13", "b6": "b13", "addb13": "b13", "addb6": "b13", "b11": "b11", "#13": "#13", "b5": "b5",
    "#5": "#5", "+5": "#5", "-5": "b5", "-9": "b9", "+9": "#9", "+11": "#11", "no3": "no3", "no5": "no5",
    "omit3": "no3", "omit5": "no5", "5": "no3", "b7": "add7", "maj7": "addmaj7",
}  # fmt: skip
ORDER = ("b5", "#5", "b9", "add9", "#9", "b11", "add11", "#11", "b13", "add13", "#13", "no3", "no5")
NUMBER = re.compile(r"(b*|#*)(\d+)\Z")


@dataclass(frozen=True, slots=True)
class Quality:
    """What stands on a chord's root.

    Attributes
    ----------
    triad : str
        A key of ``TRIADS``: major, ``-`` minor, ``o``, ``ø`` or ``+``.
    base : str
        A key of ``BASES``.
    changes : tuple of str
        Added, altered and left-out notes, in the order of ``ORDER``.
    """

    triad: str = ""
    base: str = ""
    changes: tuple[str, ...] = ()

    @property
    def is_power(self) -> bool:
        """Whether only root and fifth are left."""
        return self == POWER

    @property
    def has_third(self) -> bool:
        """Whether the chord says major or minor at all."""
        return self.base not in SUSPENDED and "no3" not in self.changes


MAJOR = Quality()
POWER = Quality("", "", ("no3",))


def make_quality(triad: str, base: str, changes: tuple[str, ...] = ()) -> Quality:
    """Make a quality in its one settled form, so that equal chords are equal values.

    ``-7(b5)`` is ``ø7``, ``(#5)`` is ``+``, ``(add13)`` on a triad is ``6``, ``(b7)`` on a triad is ``7``.

    Raises
    ------
    ChordFault
        A change is unknown, or the parts contradict each other.
    """
    kept = [_change(change) for change in changes]
    if triad == "o" and "add7" in kept:
        triad = "ø"
    base, kept = _fold_sevenths(base, kept)
    if base in SUSPENDED:
        triad, kept = _suspend(triad, kept)
    else:
        triad, kept = _fold_fifths(triad, base, kept)
    if triad == "ø":
        base = base or "7"
    if triad == "ø" and base not in SEVENTHS:
        raise ChordFault(f"a half-diminished chord has no '{base}'", "chord", "Write 'ø', or 'o' with it")
    return Quality(triad, base, tuple(c for c in ORDER if c in kept))


def _change(text: str) -> str:
    try:
        return CHANGES[text]
    except KeyError:
        raise ChordFault(
            f"'{text}' changes no note of a chord", "chord", "Write as in '(b9)', '(add9)', '(no3)' or '(5)'"
        ) from None


def _fold_sevenths(base: str, changes: list[str]) -> tuple[str, list[str]]:
    """Move a seventh or sixth in the brackets of a bare triad to the base."""
    folds = {"add7": "7", "addmaj7": "maj7", "add13": "6"}
    for change in ("add7", "addmaj7"):
        if change in changes and base not in ("", "sus", "sus4"):
            raise ChordFault(f"a seventh cannot be added to '{base}'", "chord", "Write the seventh first")
    for change, new in folds.items():
        if base == "" and change in changes:
            changes = [c for c in changes if c != change]
            base = new
    if base in ("sus", "sus4") and "add7" in changes:
        changes, base = [c for c in changes if c != "add7"], "7sus"
    if "addmaj7" in changes:
        raise ChordFault("a suspended chord with a major seventh has no short form", "chord", "Leave the 7 out")
    return base, changes


def _suspend(triad: str, changes: list[str]) -> tuple[str, list[str]]:
    """A suspended chord has no third, so a minor sign says nothing."""
    if triad in ("o", "ø"):
        raise ChordFault("a suspended chord has no third", "chord", "Write it as in '5sus' or '57sus(b5)'")
    return "", [*changes, "#5"] if triad == "+" else changes


def _fold_fifths(triad: str, base: str, changes: list[str]) -> tuple[str, list[str]]:
    """Let one altered fifth become the triad sign where there is one."""
    altered = [c for c in changes if c in ("b5", "#5")]
    if len(altered) != 1:
        return triad, changes
    rest = [c for c in changes if c not in altered]
    if triad == "" and altered == ["#5"]:
        return "+", rest
    if triad == "-" and altered == ["b5"]:
        return ("ø" if base in SEVENTHS else "o"), rest
    return triad, changes


def quality_tones(quality: Quality) -> tuple[Interval, ...]:
    """The tones above the root, the root first, in order of size by name.

    Returns
    -------
    tuple of Interval
        A ninth stays a ninth (an octave and a second).
    """
    third, fifth = TRIADS[quality.triad]
    names = ["1", fifth, *BASES[quality.base]]
    if quality.base not in SUSPENDED:
        names.insert(1, third)
    if quality.triad == "o" and quality.base in SEVENTHS:
        names[names.index("b7")] = "bb7"
    names = _altered(names, quality, third, fifth)
    return tuple(sorted(map(tone, names), key=lambda i: (i.steps, i.semitones)))


def _altered(names: list[str], quality: Quality, third: str, fifth: str) -> list[str]:
    dropped = {"no3": third, "no5": fifth}
    if {"b5", "#5"} & set(quality.changes):
        names = [n for n in names if n != fifth]
    for change in quality.changes:
        if change in dropped:
            names = [n for n in names if n != dropped[change]]
        elif change.removeprefix("add") not in names:
            names = [*names, change.removeprefix("add")]
    return names


def tone(name: str) -> Interval:
    """The interval that a chord tone's name stands for: ``b3``, ``#11``."""
    match = NUMBER.match(name)
    assert match, name
    octave, step = divmod(int(match[2]) - 1, 7)
    return degree_interval(degree_from(step + 1, match[1].count("#") - match[1].count("b")), octave)
