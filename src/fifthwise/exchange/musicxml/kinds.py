"""Chord kinds of MusicXML 4.0 and our qualities, each made of the other by the tones that they stand for.

A chord there is a kind and changes of its tones (``degree``). Tones are kept as numbers above the root with
their alterations, the 7 of a major seventh being unaltered.

References
----------
W3C, MusicXML 4.0: ``kind-value``, ``degree-value``, ``degree-alter``, ``degree-type``.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from fifthwise.theory import (
    ChordFault,
    LetterChord,
    NoteName,
    Quality,
    interval_name,
    make_quality,
    quality_text,
    write_letters,
)

__all__ = ["NO_CHORD", "Change", "Kind", "kind_of", "kind_text", "quality_of"]

NO_CHORD = "none"
SIGNS = {"bb": -2, "b": -1, "": 0, "#": 1, "##": 2}
# Kind, triad, base and changes of the quality it stands for.
KINDS = {
    "major": ("", "", ()),
    "minor": ("-", "", ()),
    "augmented": ("+", "", ()),
    "diminished": ("o", "", ()),
    "dominant": ("", "7", ()),
    "major-seventh": ("", "maj7", ()),
    "minor-seventh": ("-", "7", ()),
    "diminished-seventh": ("o", "7", ()),
    "augmented-seventh": ("+", "7", ()),
    "half-diminished": ("ø", "7", ()),
    "major-minor": ("-", "maj7", ()),
    "major-sixth": ("", "6", ()),
    "minor-sixth": ("-", "6", ()),
    "dominant-ninth": ("", "9", ()),
    "major-ninth": ("", "maj9", ()),
    "minor-ninth": ("-", "9", ()),
    "dominant-11th": ("", "11", ()),
    "major-11th": ("", "maj11", ()),
    "minor-11th": ("-", "11", ()),
    "dominant-13th": ("", "13", ()),
    "major-13th": ("", "maj13", ()),
    "minor-13th": ("-", "13", ()),
    "suspended-second": ("", "sus2", ()),
    "suspended-fourth": ("", "sus", ()),
    "power": ("", "", ("no3",)),
    "pedal": ("", "", ("no3", "no5")),
}  # fmt: skip
# Names that files have for what has another one in the standard. Its sixths named after countries say a
# function, not what sounds over the root, so they are not read.
ALIASES = {"minor-major": ("-", "maj7", ()), "dominant-seventh": ("", "7", ())}
Tones = frozenset[tuple[int, int]]


@dataclass(frozen=True, slots=True)
class Change:
    """A ``degree``: a tone added, altered or taken away."""

    type: Literal["add", "alter", "subtract"]
    value: int
    alter: int = 0


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind with its changes."""

    name: str
    changes: tuple[Change, ...] = ()


@lru_cache(maxsize=4096)
def quality_of(kind: Kind) -> Quality:
    """The quality that a kind with its changes stands for.

    Raises
    ------
    ChordFault
        The kind is unknown, or its tones make no chord that can be written.
    """
    parts = KINDS.get(kind.name) or ALIASES.get(kind.name)
    if parts is None:
        raise ChordFault(f"'{kind.name[:20]}' is no kind of chord", "chord", "Write a kind of MusicXML 4.0")
    if not kind.changes:
        return make_quality(*parts)
    tones = set(_tones(make_quality(*parts)))
    for change in kind.changes:
        _apply(tones, change)
    return _quality(tones)


def _apply(tones: set[tuple[int, int]], change: Change) -> None:
    """Carry out one change, as far as the tones allow."""
    present = [tone for tone in tones if tone[0] == change.value]
    if change.type == "add":
        # Added tones count from a dominant chord, whose seventh is flat.
        tones.add((change.value, change.alter - (change.value == 7)))
    elif change.type == "subtract":
        tones.difference_update(present)
    elif present:
        tones.difference_update(present)
        tones.update((number, alter + change.alter) for number, alter in present)
    else:  # an altered tone that is not there is added
        tones.add((change.value, change.alter))


def _quality(tones: set[tuple[int, int]]) -> Quality:
    """The quality with these tones above the root."""
    alters: dict[int, list[int]] = {}
    for number, alter in sorted(tones):
        alters.setdefault(number, []).append(alter)
    alters.pop(1, None)
    alters.pop(8, None)
    changes = [*_fifths(alters), *_sevenths(alters)]
    triad, base = "", ""
    thirds = alters.pop(3, [])
    if thirds == [-1]:
        triad = "-"
    elif not thirds:
        base = _suspension(alters)
        changes += [] if base else ["no3"]
    elif thirds != [0]:
        raise _strange(tones)
    if "bb7" in changes:
        triad = _diminished(triad, changes, tones)
        base = "7"
    for number, found in alters.items():
        changes += [_added(number, alter, tones) for alter in found]
    return make_quality(triad, base, tuple(changes))


def _fifths(alters: dict[int, list[int]]) -> list[str]:
    names = {-1: "b5", 0: "", 1: "#5"}
    found = alters.pop(5, None)
    return ["no5"] if found is None else [names[alter] for alter in found if names.get(alter)]


def _sevenths(alters: dict[int, list[int]]) -> list[str]:
    names = {-2: "bb7", -1: "b7", 0: "maj7"}
    return [names[alter] for alter in alters.pop(7, []) if alter in names]


def _suspension(alters: dict[int, list[int]]) -> str:
    for number, base in ((4, "sus"), (2, "sus2")):
        if alters.get(number) == [0]:
            del alters[number]
            return base
    return ""


def _diminished(triad: str, changes: list[str], tones: set[tuple[int, int]]) -> str:
    """The sign that tells a doubly flat seventh, and with it the third and the fifth that are left."""
    minor, flat = triad == "-" or "no3" in changes, "b5" in changes or "no5" in changes
    if not (minor and flat):
        raise _strange(tones)
    changes[:] = [change for change in changes if change not in ("b5", "bb7")]
    return "o"


def _added(number: int, alter: int, tones: set[tuple[int, int]]) -> str:
    sign = next((sign for sign, by in SIGNS.items() if by == alter), None)
    if sign is None:
        raise _strange(tones)
    return f"{sign or 'add'}{number}"


def _strange(tones: set[tuple[int, int]]) -> ChordFault:
    names = " ".join(
        f"{'#' * alter if alter > 0 else 'b' * -alter}{number}" for number, alter in sorted(tones)
    )
    return ChordFault(f"no chord has the tones {names}", "chord", "Write a kind and the degrees it changes")


@lru_cache(maxsize=4096)
def kind_of(quality: Quality) -> Kind:
    """The kind, with the fewest changes, that stands for a quality."""
    wanted = _tones(quality)
    found = {name: tuple(_changes(_kind_tones(name), wanted)) for name in KINDS}
    best = min(KINDS, key=lambda name: (len(found[name]), len(_kind_tones(name) - wanted)))
    return Kind(best, found[best])


def _changes(given: Tones, wanted: Tones) -> list[Change]:
    found, more, less = [], dict[int, list[int]](), dict(sorted(given - wanted))
    for number, alter in sorted(wanted - given):
        more.setdefault(number, []).append(alter)
    for number, alter in less.items():
        if number in more:
            found.append(Change("alter", number, more[number].pop(0) - alter))
        else:
            found.append(Change("subtract", number))
    found += [Change("add", n, alter + (n == 7)) for n, alters in more.items() for alter in alters]
    return found


@lru_cache(maxsize=64)
def _kind_tones(name: str) -> Tones:
    return _tones(make_quality(*KINDS[name]))


@lru_cache(maxsize=4096)
def _tones(quality: Quality) -> Tones:
    """Numbers above the root and their alterations."""
    found = set()
    for tone in quality.tones:
        name = interval_name(tone)
        number = name.lstrip("b#")
        found.add((int(number), SIGNS[name.removesuffix(number)]))
    return frozenset(found)


@lru_cache(maxsize=4096)
def kind_text(quality: Quality, *, as_number: bool) -> str:
    """How a kind is printed behind its root: ``m7b5`` behind letters, ``ø7`` behind numbers."""
    if as_number:
        return quality_text(quality)
    return write_letters(LetterChord(NoteName(0), quality)).removeprefix("C")
