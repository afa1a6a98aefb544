"""One ``harmony`` element as a chord in letters, whether it is written as a root, a numeral or a function.

A numeral counts in the scale of its key: in plain minor, 3, 6 and 7 already are the flat ones; harmonic minor
sharpens 7, melodic minor 6 and 7.

References
----------
W3C, MusicXML 4.0: ``harmony``, ``numeral``, ``numeral-key``, ``numeral-mode``.
"""

import re
from xml.etree.ElementTree import Element

from fifthwise.exchange.lead_sheet import LeadChord
from fifthwise.exchange.left_out import LeftOut
from fifthwise.exchange.musicxml.kinds import NO_CHORD, Change, Kind, quality_of
from fifthwise.exchange.musicxml.values import Place, text_at
from fifthwise.theory import (
    ChordFault,
    Interval,
    Key,
    LetterChord,
    NoteName,
    Quality,
    TheoryError,
    chord_notes,
    read_letter_chord,
    read_number_chord,
    to_letters,
)

__all__ = ["UNREAD", "moved", "read_harmony"]

UNREAD = "a chord that cannot be written is left out"
# Degrees that the scales of minor sharpen, which numerals of plain minor have as they are.
RAISED = {"harmonic minor": (7,), "melodic minor": (6, 7)}
SHARP = 7
ROOTS = ("root", "numeral", "function")
MOST_STACKED = 4
UNSAID = ("", "major", "other")  # kinds that leave a function's own numeral to say the quality
NUMERAL = re.compile(r"(?P<numeral>(?:b|#)?[IViv]+)(?P<rest>.*?)(?:/(?P<of>(?:b|#)?[IViv]+))?\Z")


def read_harmony(element: Element, key: Key, place: Place, left: LeftOut) -> LetterChord | None:
    """Read a chord as the part writes it; ``None`` is no chord.

    Parameters
    ----------
    key : Key
        That the part reads, in which numerals without one of their own count.

    Raises
    ------
    ChordFault
        It is no chord that can be written.
    """
    if text_at(element, "kind") == NO_CHORD:
        return None
    first, *others = _stacked(element)
    for other in reversed(others):
        if other.find("root") is not None:
            left.add("the second of two chords at one place is left out", place.bar)
        else:  # a V of II is the 5 in the key of the 2
            key = _key_of(_chord(other, key, place))
    return _with_bass(first, _chord(first, key, place), place)


def _stacked(element: Element) -> list[Element]:
    """The chords of a harmony that has several, each with what belongs to it."""
    found = [Element("harmony")]
    for child in element:
        if child.tag in ROOTS and found[-1].find("kind") is not None:
            found.append(Element("harmony"))
        found[-1].append(child)
    return found[:MOST_STACKED]


def _key_of(chord: LetterChord) -> Key:
    return Key(chord.root, "minor" if chord.quality.triad in ("-", "o", "ø") else "major")


def _chord(element: Element, key: Key, place: Place) -> LetterChord:
    """One chord without its bass."""
    kind, function = text_at(element, "kind"), element.find("function")
    if function is None:
        return LetterChord(_root(element, key, place), _quality(element, kind, place))
    chord = _function((function.text or "").strip(), key)
    if kind in UNSAID:
        return chord
    return LetterChord(chord.root, _quality(element, kind, place), chord.bass)


def _root(element: Element, key: Key, place: Place) -> NoteName:
    root, numeral = element.find("root"), element.find("numeral")
    if root is not None:
        return place.note(text_at(root, "root-step"), text_at(root, "root-alter"))
    if numeral is None:
        raise ChordFault("a chord has no root", "chord", "Give it one")
    step = place.whole(text_at(numeral, "numeral-root"), "numeral", 1, 7)
    alter = round(place.alter(text_at(numeral, "numeral-alter")))
    own = numeral.find("numeral-key")
    if own is not None:
        key, raised = _numeral_key(own, place)
        alter += step in raised
    return NoteName(key.tonic.fifths + key.scale[step - 1].fifths + SHARP * alter)


def _numeral_key(element: Element, place: Place) -> tuple[Key, tuple[int, ...]]:
    signs = place.whole(text_at(element, "numeral-fifths"), "key signature", -14, 14)
    mode = text_at(element, "numeral-mode")
    if mode == "major":
        return Key(NoteName(signs)), ()
    return Key(NoteName(signs + 3), "minor"), RAISED.get(mode, ())


def _quality(element: Element, kind: str, place: Place) -> Quality:
    """The quality of a kind and its degrees; of one that has no name, what is printed."""
    try:
        return quality_of(Kind(kind, tuple(_change(degree, place) for degree in element.findall("degree"))))
    except ChordFault:
        text = element.find("kind")
        printed = "" if text is None else text.get("text", "")
        if kind != "other" or not printed:
            raise
        return read_letter_chord(f"C{printed[:40]}").quality


def _change(element: Element, place: Place) -> Change:
    value = place.whole(text_at(element, "degree-value"), "degree of a chord", 1, 15)
    alter = round(place.alter(text_at(element, "degree-alter")))
    kind = text_at(element, "degree-type")
    if kind == "alter":
        return Change("alter", value, alter)
    return Change("subtract", value) if kind == "subtract" else Change("add", value, alter)


def _with_bass(element: Element, chord: LetterChord, place: Place) -> LetterChord:
    bass = element.find("bass")
    if bass is not None:
        note = place.note(text_at(bass, "bass-step"), text_at(bass, "bass-alter"))
        return LetterChord(chord.root, chord.quality, note)
    inversion = text_at(element, "inversion")
    if not inversion:
        return chord
    at = place.whole(inversion, "inversion", 0, 6)
    notes = chord_notes(chord)
    return LetterChord(chord.root, chord.quality, notes[at]) if 0 < at < len(notes) else chord


def _function(text: str, key: Key) -> LetterChord:
    """A Roman numeral in a key, its case its quality; ``V/ii`` counts in the key of the ``ii``."""
    match = NUMERAL.match(text.replace("♭", "b").replace("♯", "#"))
    if match is None:
        raise ChordFault(f"'{text[:20]}' is no numeral", "chord", "Write it as in 'V7'")
    try:
        of = read_number_chord(match["of"]) if match["of"] else None
        number = read_number_chord(f"{match['numeral']}{match['rest']}")
    except TheoryError:
        raise ChordFault(f"'{text[:20]}' is no numeral", "chord", "Write it as in 'V7'") from None
    one = key.tonic if of is None else NoteName(key.tonic.fifths + of.root.fifths)
    return to_letters(number, one)


def moved(chord: LeadChord, by: Interval) -> LeadChord:
    """A chord as it sounds."""
    letters = chord.chord
    if not isinstance(letters, LetterChord) or not by.fifths:
        return chord
    bass = None if letters.bass is None else NoteName(letters.bass.fifths + by.fifths)
    return LeadChord(
        chord.at, LetterChord(NoteName(letters.root.fifths + by.fifths), letters.quality, bass), chord.marks
    )
