"""What a player has settled about a note: ``A2`` string and finger, ``D0`` open, ``2``, ``A``, ``.`` free."""

import re
from dataclasses import dataclass

from fifthwise.strings.errors import LineFault
from fifthwise.strings.frame import OPEN, THUMB
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.naming import string_name
from fifthwise.theory import plain_accidentals

__all__ = ["FREE", "Pin", "read_pin"]

PIN = re.compile(r"(?P<string>[A-G](?:bb|##|b|#)?(?:(?=\d\d)\d|\d(?=T))?)?(?P<finger>[0-4T])?\Z")


@dataclass(frozen=True, slots=True)
class Pin:
    """Strings and finger that a note is bound to; ``None`` is free."""

    strings: frozenset[int] | None = None
    finger: int | None = None


FREE = Pin()


def read_pin(text: str, instrument: Instrument, where: str) -> Pin:
    """Read a pin.

    A letter that two strings share (``A`` in AEAE) binds to both; ``A42`` is the second finger on the A4
    string.

    Raises
    ------
    LineFault
        It cannot be read, or names a string that the instrument does not have.
    """
    if text in ("", "."):
        return FREE
    match = PIN.match(plain_accidentals(text))
    if not match:
        raise LineFault(
            f"'{text}' pins no finger", where, "Write string and finger, as in 'A2' or 'D0', or '.'"
        )
    finger = {None: None, "T": THUMB, "0": OPEN}.get(match["finger"], match["finger"])
    return Pin(_strings(match["string"], instrument, text, where), None if finger is None else int(finger))


def _strings(name: str | None, instrument: Instrument, text: str, where: str) -> frozenset[int] | None:
    if name is None:
        return None
    found = frozenset(at for at, own in enumerate(instrument.strings) if name in (str(own.name), str(own)))
    if not found:
        names = ", ".join(string_name(instrument, at) for at in range(len(instrument.strings)))
        what = f"'{text}' names a string that a {instrument.label.lower()} does not have"
        raise LineFault(what, where, f"Its strings are {names}")
    return found
