"""Chord qualities: a triad sign, a base and changes, as the chart text writes them.

The tones of each base follow Harte et al., ISMIR 2005 (the shorthands of their chord syntax): a 13
stacks every third, the 11 included, though players often leave it out.
"""

import re
from dataclasses import dataclass, field
from functools import lru_cache

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
    "7sus": ("4", "b7"),
    "9sus": ("4", "b7", "9"),
}
SAME_BASES = {"sus4": "sus", "7sus4": "7sus", "9sus4": "9sus"}
SUSPENDED = frozenset({"sus", "sus2", "7sus", "9sus"})
SEVENTHS = frozenset({"7", "9", "11", "13"})
# Changes as written, by the name under which they are kept.
CHANGES = {
    "add2": "add9", "2": "add9", "9": "add9", "add9": "add9", "add4": "add11", "4": "add11", "11": "add11",
    "add11": "add11", "add6": "add13", "6": "add13", "13": "add13", "add13": "add13", "b9": "b9", "#9": "#9",
    "addb9": "b9", "add#9": "#9", "b10": "#9", "#11": "#11", "#4": "#11", "add#11": "#11", "add#4": "#11",
    "b13": "b13", "b6": "b13", "addb13": "b13", "addb6": "b13", "b11": "b11", "#13": "#13", "b5": "b5",
    "#5": "#5", "+5": "#5", "-5": "b5", "-9": "b9", "+9": "#9", "+11": "#11", "no3": "no3", "no5": "no5",
    "omit3": "no3", "omit5": "no5", "5": "no3", "b7": "b7", "maj7": "maj7",
}  # fmt: skip
ORDER = (
    "b5", "#5", "b7", "maj7", "b9", "add9", "#9", "b11", "add11", "#11", "b13", "add13", "#13", "no3", "no5"
)  # fmt: skip
# What a base and one change make together; of two changes that fit, the one named first in ORDER counts.
JOINED = {
    ("", "b7"): "7",
    ("", "maj7"): "maj7",
    ("", "add13"): "6",
    ("6", "add9"): "69",
    ("7", "add9"): "9",
    ("9", "add11"): "11",
    ("11", "add13"): "13",
    ("maj7", "add9"): "maj9",
    ("maj9", "add11"): "maj11",
    ("maj11", "add13"): "maj13",
    ("sus", "b7"): "7sus",
    ("7sus", "add9"): "9sus",
}
# What stands for a base when one of the changes is added to it: 6(b7) is 7(add13), maj7(b7) is 7(maj7).
PARTED = {
    ("6", "b7"): ("7", ("add13",)),
    ("6", "maj7"): ("maj7", ("add13",)),
    ("69", "b7"): ("9", ("add13",)),
    ("69", "maj7"): ("maj9", ("add13",)),
    ("maj7", "b7"): ("7", ("maj7",)),
    ("maj9", "b7"): ("9", ("maj7",)),
    ("maj11", "b7"): ("11", ("maj7",)),
    ("maj13", "b7"): ("13", ("maj7",)),
}
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
    tones : tuple of Interval
        What follows from these three, worked out once; see ``quality_tones``.
    """

    triad: str = ""
    base: str = ""
    changes: tuple[str, ...] = ()
    tones: tuple[Interval, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "tones", _tones(self))

    @property
    def is_power(self) -> bool:
        """Whether only root and fifth are left."""
        return self == POWER

    @property
    def has_third(self) -> bool:
        """Whether the chord says major or minor at all."""
        return self.base not in SUSPENDED and "no3" not in self.changes


@lru_cache(maxsize=8192)
def make_quality(triad: str, base: str, changes: tuple[str, ...] = ()) -> Quality:
    """Make a quality in its one settled form, so that equal chords are equal values.

    ``-7(b5)`` is ``ø7``, ``(#5)`` is ``+``, ``7(add9)`` is ``9``, ``6(b7)`` is ``7(add13)``.

    Raises
    ------
    ChordFault
        A change is unknown, or the parts contradict each other.
    """
    kept = {_change(change) for change in changes}
    base = SAME_BASES.get(base, base)
    if triad == "ø":
        base = _half_diminished_base(base)
    elif triad == "o" and "b7" in kept:
        triad, kept = "-", kept | {"b5"}
    base, kept = _settle_base(base, kept)
    triad, kept = _suspend(triad, kept) if base in SUSPENDED else _settle_triad(triad, base, kept)
    present = {tone.fifths for tone in Quality(triad, base).tones}
    return Quality(triad, base, tuple(c for c in ORDER if c in kept and _says_something(c, present)))


def _change(text: str) -> str:
    try:
        return CHANGES[text]
    except KeyError:
        raise ChordFault(
            f"'{text}' changes no note of a chord", "chord", "Write as in '(b9)', '(add9)', '(no3)' or '(5)'"
        ) from None


def _half_diminished_base(base: str) -> str:
    """A half-diminished chord has a seventh, said or not."""
    if base and base not in SEVENTHS | SUSPENDED:
        raise ChordFault(f"a half-diminished chord has no '{base}'", "chord", "Write 'ø', or 'o' with it")
    return base or "7"


def _settle_base(base: str, changes: set[str]) -> tuple[str, set[str]]:
    """Move into the base what it has a name for."""
    if "b7" in changes and "b7" in BASES[base]:
        raise ChordFault(f"a seventh cannot be added to '{base}'", "chord", "Leave one of the two out")
    for change in ORDER:
        if change not in changes:
            continue
        if (base, change) in PARTED:
            base, more = PARTED[base, change]
            return _settle_base(base, changes - {change} | set(more))
        if (base, change) in JOINED:
            return _settle_base(JOINED[base, change], changes - {change})
    return base, changes


def _suspend(triad: str, changes: set[str]) -> tuple[str, set[str]]:
    """A suspended chord has no third, so a minor sign says nothing."""
    if triad in ("o", "ø"):
        raise ChordFault("a suspended chord has no third", "chord", "Write it as in '5sus' or '57sus(b5)'")
    _check_fifth(triad, changes)
    raised = triad == "+" and "no5" not in changes
    return "", changes - {"no3"} | ({"#5"} if raised else set())


def _settle_triad(triad: str, base: str, changes: set[str]) -> tuple[str, set[str]]:
    """Let the triad sign tell the third and the fifth where it can, and nothing that is left out."""
    _check_fifth(triad, changes)
    if triad == "o" and base in SEVENTHS:
        return triad, changes - {"b5"}  # the sign also tells the double-flat seventh
    third, fifth = TRIADS[triad]
    altered = changes & {"b5", "#5"} | ({fifth} - {"5"})
    third = "3" if "no3" in changes else third
    if "no5" in changes or len(altered) == 2:
        return "" if third == "3" else "-", changes
    fifth = next(iter(altered), "5")
    fitting = (
        sign for sign in ("", "-", "+", "ø" if base in SEVENTHS else "o") if TRIADS[sign] == (third, fifth)
    )
    sign = next(fitting, "" if third == "3" else "-")
    return sign, changes - {"b5", "#5"} | (altered - {TRIADS[sign][1]})


def _check_fifth(triad: str, changes: set[str]) -> None:
    altered = changes & {"b5", "#5"}
    if altered and "no5" in changes:
        raise ChordFault("the fifth is both altered and left out", "chord", "Leave one of the two out")
    sign = TRIADS[triad][1]
    if sign != "5" and altered - {sign}:
        raise ChordFault(
            f"'{triad}' already has a {sign}", "chord", f"Leave '{triad}' or the other fifth out"
        )


def _says_something(change: str, present: set[int]) -> bool:
    """Whether a change alters, leaves out, or adds a note that is not there, in whatever octave."""
    return change in ("b5", "#5", "no3", "no5") or tone(_added(change)).fifths not in present


def _added(change: str) -> str:
    """The name of the note that a change adds."""
    return "7" if change == "maj7" else change.removeprefix("add")


def quality_tones(quality: Quality) -> tuple[Interval, ...]:
    """The tones above the root, the root first, in order of size by name.

    Returns
    -------
    tuple of Interval
        A ninth stays a ninth (an octave and a second).
    """
    return quality.tones


def _tones(quality: Quality) -> tuple[Interval, ...]:
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
    left = [n for n in names if n not in {dropped[c] for c in quality.changes if c in dropped}]
    return [*left, *(_added(c) for c in quality.changes if c not in dropped)]


@lru_cache(maxsize=256)
def tone(name: str) -> Interval:
    """The interval that a chord tone's name stands for: ``b3``, ``#11``."""
    match = NUMBER.match(name)
    assert match, name
    octave, step = divmod(int(match[2]) - 1, 7)
    return degree_interval(degree_from(step + 1, match[1].count("#") - match[1].count("b")), octave)


MAJOR = Quality()
POWER = Quality("", "", ("no3",))
