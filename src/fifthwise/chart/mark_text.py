"""What stands in square brackets: endings, pickups, metres, keys, tempos, feels and navigation."""

import difflib
import re
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.chart.head import Refused, read_tempo
from fifthwise.chart.model import KeyShift, ScopedMark
from fifthwise.theory import Key, Metre, NoteFault, TheoryError, read_key, read_metre, read_note

__all__ = ["AFTER_CHORDS", "JUMPS", "Bracket", "read_bracket", "read_key_shift"]

JUMPS = ("ds al coda", "ds al fine", "dc al coda", "dc al fine")
SIGNS = ("segno", "coda", "to coda", "fine", *JUMPS)
AFTER_CHORDS = frozenset({"to coda", "fine", *JUMPS})
NAMES = ("pickup", "key", "meter", "tempo", "feel", *SIGNS)
EXAMPLES = (
    "'[1.]', '[2/4]', '[pickup 1]', '[key +2]', '[meter 3/4]', '[tempo 96]', '[feel swing]', '[segno]' …"
)
ENDING = re.compile(r"(?:[0-9]{1,2}\.\s*)+\Z")
METRE = re.compile(r"[0-9]+\s*/\s*[0-9]+")
SHIFT = re.compile(r"([+-])\s*([0-9]{1,2})\Z")
AMOUNT = re.compile(r"(?:([0-9]{1,2})\s+)?([0-9]{1,5}/[1-9][0-9]{0,3}|[0-9]{1,2}(?:\.[0-9]{1,3})?)\Z")
WIDEST_SHIFT = 12


@dataclass(frozen=True, slots=True)
class Bracket:
    """One bracketed mark, read; exactly one field is set."""

    endings: tuple[int, ...] = ()
    pickup: Fraction | None = None
    metre_once: Metre | None = None
    scoped: ScopedMark | None = None
    sign: str | None = None

    @property
    def kind(self) -> str:
        """What it is; a bar has each kind once."""
        if self.sign:
            return "jump" if self.sign in JUMPS else self.sign
        if self.scoped:
            return next(
                kind for kind in ("key", "metre", "tempo", "feel") if getattr(self.scoped, kind) is not None
            )
        return "endings" if self.endings else "pickup" if self.pickup else "metre once"


def read_bracket(text: str, head_key: Key) -> Bracket:
    """Read the text between square brackets; a bare ``[key A]`` takes the head's mode.

    Raises
    ------
    Refused
        It is no mark; says what was expected.
    """
    inner = " ".join(text.split())
    if ENDING.match(inner):
        return Bracket(endings=_endings(inner))
    if METRE.match(inner):
        return Bracket(metre_once=_metre(inner))
    name, _, rest = inner.partition(" ")
    if name == "key":
        return Bracket(scoped=ScopedMark(key=read_key_shift(rest.strip(), head_key)))
    reader = {"pickup": _pickup, "meter": _scoped_metre, "tempo": _tempo, "feel": _feel}.get(name)
    if reader:
        return reader(rest.strip())
    sign = inner.lower().replace("d.s.", "ds").replace("d.c.", "dc")
    if sign in SIGNS:
        return Bracket(sign=sign)
    near = difflib.get_close_matches(name if rest and name not in ("to", "ds", "dc") else sign, NAMES, n=1)
    fix = f"Write {EXAMPLES}"
    if near:
        fix = f"Did you mean '[{near[0]}{' ' + rest if rest and near[0] not in SIGNS else ''}]'?"
    raise Refused(f"'[{inner}]' is no mark", fix)


def _endings(text: str) -> tuple[int, ...]:
    numbers = tuple(int(n) for n in re.findall(r"\d+", text))
    if 0 in numbers or list(numbers) != sorted(set(numbers)):
        raise Refused(f"'[{text}]' is no ending", "Number endings upwards from 1, as in '[1. 2.]'")
    return numbers


def _metre(text: str) -> Metre:
    try:
        return read_metre(text)
    except TheoryError as fault:
        raise Refused(fault.what, fault.fix) from fault


def _pickup(text: str) -> Bracket:
    match = AMOUNT.match(text)
    amount = Fraction(match[1] or 0) + Fraction(match[2]) if match else Fraction(0)
    if amount <= 0:
        raise Refused(
            f"'[pickup {text}]' has no length", "Write its felt beats, as in '[pickup 1]' or '[pickup 1/2]'"
        )
    return Bracket(pickup=amount)


def read_key_shift(text: str, head_key: Key) -> KeyShift:
    """Read what follows ``key`` in a mark: ``+2``, ``-3`` or ``A``, which keeps the head's mode.

    Raises
    ------
    Refused
        It is neither a number of semitones nor a key.
    """
    match = SHIFT.match(text)
    if match:
        by = int(match[1] + match[2])
        if not 0 < abs(by) <= WIDEST_SHIFT:
            raise Refused(
                f"'[key {text}]' does not change the key", "Write 1 to 12 semitones, as in '[key +2]'"
            )
        return KeyShift(semitones=by)
    try:
        return KeyShift(key=_named_key(text, head_key))
    except TheoryError as fault:
        raise Refused(fault.what, "Write semitones or a key, as in '[key +2]' or '[key A]'") from fault


def _named_key(text: str, head_key: Key) -> Key:
    try:
        tonic = read_note(text)
    except NoteFault:
        return read_key(text)
    return read_key(f"{tonic} {head_key.mode}")


def _scoped_metre(text: str) -> Bracket:
    return Bracket(scoped=ScopedMark(metre=_metre(text)))


def _tempo(text: str) -> Bracket:
    return Bracket(scoped=ScopedMark(tempo=read_tempo(text)))


def _feel(text: str) -> Bracket:
    if not text:
        raise Refused("the mark names no feel", "Write it as in '[feel shuffle]'")
    return Bracket(scoped=ScopedMark(feel=text))
