"""The head of a tune: its title, key, metre, unit, tempo, voices and the order of its parts.

References
----------
The abc music standard 2.1, 3 "Information fields"; from memory.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import cast

from fifthwise.exchange.abc.book import FIELD
from fifthwise.exchange.abc.fields import LOST, Holds
from fifthwise.exchange.abc.keys import OPEN_KEY, Moved, is_no_key, read_key_field, read_moved
from fifthwise.exchange.abc.metres import Tempo, is_free, read_metre_field, read_tempo, read_unit, usual_unit
from fifthwise.exchange.abc.pitches import PROPAGATION, Propagation
from fifthwise.exchange.abc.signs import user_sign
from fifthwise.exchange.abc.texts import line_of, words_of
from fifthwise.exchange.left_out import LeftOut

__all__ = ["TuneHead", "read_head"]

NOTES = "ABDFGHNOSZE"  # who wrote it down, where it is from, what is told of it
PROPAGATES = re.compile(r"(?:abc-)?propagate-accidentals\s+(not|octave|pitch)\b")
MOST_TITLES = 3


@dataclass(slots=True)
class TuneHead:
    """A head, read.

    Attributes
    ----------
    order : str
        In which the parts are played, as ``AABB``; may be empty.
    voices : list of str
        ``V:`` fields.
    user : dict
        Letters that stand for a sign.
    """

    number: str
    titles: list[str]
    by: str
    feel: str
    order: str
    tempo: Tempo
    holds: Holds
    voices: list[str]
    user: dict[str, str] = field(default_factory=dict)


def read_head(lines: Sequence[str], directives: Sequence[str], left: LeftOut) -> TuneHead:
    """Read the fields before the music; the last of a kind counts, of titles the first."""
    fields = _fields(lines)
    last = {letter: texts[-1].strip() for letter, texts in fields.items()}
    holds = _holds(last, directives, left)
    tempo = read_tempo(last.get("Q", ""), holds.unit)
    titles = [title for text in fields.get("T", ()) if (title := line_of(text))]
    by = next((name for text in fields.get("C", ()) if (name := line_of(text))), "")
    _tell(fields, titles, left)
    signs = [sign for text in fields.get("U", ()) if (sign := user_sign(text))]
    feel = tempo.words or words_of(last.get("R", ""))
    order = words_of(last.get("P", ""))
    number = line_of(last.get("X", ""))[:20]
    return TuneHead(number, titles, by, feel, order, tempo, holds, fields.get("V", []), dict(signs))


def _fields(lines: Sequence[str]) -> dict[str, list[str]]:
    """Texts by their letter; ``+:`` goes on with the one before."""
    found: dict[str, list[str]] = {}
    texts: list[str] = []
    for line in lines:
        match = FIELD.match(line)
        if match and match[1]:
            texts = found.setdefault(match[1], [])
            texts.append(match[3])
        elif match and texts:
            texts[-1] += " " + match[3]
    return found


def _holds(last: dict[str, str], directives: Sequence[str], left: LeftOut) -> Holds:
    metre_text = last.get("M", "")
    metre = read_metre_field(metre_text)
    if metre is None and not is_free(metre_text):
        left.add(f"the metre '{metre_text[:20]}' cannot be read; each bar is as long as its notes", "1")
    unit = read_unit(last["L"]) if "L" in last else None
    if unit is None and "L" in last:
        left.add(f"the unit '{last['L'][:20]}' cannot be read; it is the usual one", "1")
    key_text = last.get("K", "")
    key = read_key_field(key_text) or OPEN_KEY
    if is_no_key(key_text):
        left.add(f"the key '{words_of(key_text)[:20]}' cannot be read; C is taken", "")
    if key.told:
        left.add(key.told, "1")
    propagation = next((cast(Propagation, m[1]) for d in directives if (m := PROPAGATES.match(d))), "pitch")
    assert propagation in PROPAGATION
    return Holds(key, metre, unit or usual_unit(metre), read_moved(key_text) or Moved(), propagation)


def _tell(fields: dict[str, list[str]], titles: Sequence[str], left: LeftOut) -> None:
    """What of a head a song has no place for."""
    for title in titles[1:MOST_TITLES]:
        left.add(f"the title '{title[:60]}' is left out", "")
    notes = sorted(letter for letter in fields if letter in NOTES)
    if notes:
        left.add(f"notes about the tune ({', '.join(notes)}) are left out", "")
    for letter in sorted(set(fields) & set(LOST)):
        left.add(LOST[letter], "")
