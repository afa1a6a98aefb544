"""One ``note`` element: its pitch, tie, slurs, syllables and fingers."""

import re
from dataclasses import dataclass
from fractions import Fraction
from xml.etree.ElementTree import Element

from fifthwise.exchange.left_out import LeftOut
from fifthwise.exchange.musicxml.values import Place, text_at
from fifthwise.exchange.plain_texts import plain_line
from fifthwise.theory import SpelledPitch

__all__ = ["ReadNote", "read_note", "syllables"]

LARGEST_STRING = 12
PIN = re.compile(r"[A-G][b#]?[0-4T]\Z")
# What stands at a note and has no place in a song, by the element that holds it.
ORNAMENTS = {
    "ornaments": "ornaments are left out",
    "articulations": "articulations are left out",
    "glissando": "slides are left out",
    "slide": "slides are left out",
    "arpeggiate": "broken chords are left out",
}
HYPHENATED = ("begin", "middle")
ELISION = "‿"
FINGERS = ("0", "1", "2", "3", "4")


@dataclass(frozen=True, slots=True)
class ReadNote:
    """A note element.

    Attributes
    ----------
    length : Fraction
        Quarters; 0 for a grace note.
    pitch : SpelledPitch or None
        As written; ``None`` for a rest.
    joins : bool
        Whether it sounds with the note before.
    fills : bool
        Whether it is a rest that fills its bar.
    slurs : tuple of (str, str)
        Number and ``start`` or ``stop``.
    """

    voice: str
    length: Fraction
    pitch: SpelledPitch | None
    joins: bool
    grace: bool
    fills: bool
    goes_on: bool
    fermata: bool
    slurs: tuple[tuple[str, str], ...]
    lyrics: tuple[tuple[str, str], ...]
    string: str
    finger: str


def read_note(element: Element, divisions: Fraction, place: Place, left: LeftOut) -> ReadNote | None:
    """Read a note; ``None`` for a cue, which other players play."""
    if element.find("cue") is not None:
        left.add("cue notes are left out", place.bar)
        return None
    grace = element.find("grace") is not None
    duration = text_at(element, "duration")
    if not duration and not grace:
        raise place.fault("a note has no duration")
    length = Fraction(0) if grace else place.decimal(duration, "duration") / divisions
    rest = element.find("rest")
    ties = {tie.get("type") for tie in (*element.findall("tie"), *element.findall("notations/tied"))}
    slurs = [(s.get("number", "1"), s.get("type", "")) for s in element.findall("notations/slur")]
    string, finger = _technical(element)
    _tell(element, place, left)
    return ReadNote(
        text_at(element, "voice", "1"),
        length,
        _pitch(element, place, left),
        element.find("chord") is not None,
        grace,
        rest is not None and rest.get("measure") == "yes",
        "stop" in ties,
        element.find("notations/fermata") is not None,
        tuple(slurs),
        tuple(syllables(element)),
        string,
        finger,
    )


def _pitch(element: Element, place: Place, left: LeftOut) -> SpelledPitch | None:
    pitch = element.find("pitch")
    if pitch is None:
        if element.find("unpitched") is not None:
            left.add("notes without a pitch are left out", place.bar)
        return None
    alter = text_at(pitch, "alter")
    if place.alter(alter).denominator > 1:
        left.add("parts of a semitone are left out", place.bar)
    note = place.note(text_at(pitch, "step"), alter)
    return SpelledPitch(note.fifths, place.whole(text_at(pitch, "octave"), "octave", 0, 9))


def syllables(element: Element) -> list[tuple[str, str]]:
    """The syllables under a note by verse; a ``-`` at the end says that the word goes on."""
    found = []
    for lyric in element.findall("lyric"):
        texts = [(part.text or "").strip() for part in lyric if part.tag == "text"]
        text = plain_line(ELISION.join(part for part in texts if part))
        last = [(part.text or "").strip() for part in lyric if part.tag == "syllabic"][-1:]
        if text:
            goes_on = "-" if last and last[0] in HYPHENATED and not text.endswith("-") else ""
            found.append((lyric.get("number") or lyric.get("name") or "1", text + goes_on))
    return found


def _technical(element: Element) -> tuple[str, str]:
    """The number of the string and the finger, each empty where none is said."""
    string = finger = ""
    for child in element.findall("notations/technical/*"):
        text = (child.text or "").strip()
        if child.tag == "string" and text.isdigit() and int(text[:3]) <= LARGEST_STRING:
            string = text
        elif child.tag == "fingering" and not finger and text in FINGERS:
            finger = text
        elif child.tag == "open-string":
            finger = "0"
        elif child.tag == "other-technical" and PIN.match(text):
            string, finger = text[:-1], text[-1]
    return string, finger


def _tell(element: Element, place: Place, left: LeftOut) -> None:
    for notations in element.findall("notations"):
        for child in notations:
            if child.tag in ORNAMENTS:
                left.add(ORNAMENTS[child.tag], place.bar)
