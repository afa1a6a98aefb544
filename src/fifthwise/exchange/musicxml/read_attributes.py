"""Divisions, keys, metres and transpositions."""

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from xml.etree.ElementTree import Element

from fifthwise.exchange.any_metre import is_short_enough, metre_of_groups
from fifthwise.exchange.left_out import LeftOut
from fifthwise.exchange.musicxml.values import Place, text_at
from fifthwise.theory import (
    MODES,
    Interval,
    Key,
    Metre,
    NoteName,
    SpelledPitch,
    in_fewest_accidentals,
    nearest_interval,
    transpose,
)

__all__ = ["CONCERT", "Attributes", "read_attributes"]

CONCERT = Interval(0, 0)
C_MAJOR = Key(NoteName(0))
BEATS = re.compile(r"\d{1,2}(?:\s*\+\s*\d{1,2})*\Z")
MOST_SIGNS = 7
WIDEST = 12  # fifths of a transposition; more is a slip, and is counted in semitones alone
ENHARMONIC = Interval(12, -7)


@dataclass(frozen=True, slots=True)
class Attributes:
    """What holds in a part from a place on.

    Attributes
    ----------
    divisions : Fraction
        Of a quarter, in which durations are counted.
    written : Key
        As the part reads it.
    sounding : Interval
        From the written note to the sounding one.
    """

    divisions: Fraction = Fraction(1)
    written: Key = C_MAJOR
    metre: Metre = Metre(4, 4)  # noqa: RUF009 - frozen
    sounding: Interval = CONCERT

    @property
    def key(self) -> Key:
        """The key that sounds."""
        key = Key(NoteName(self.written.tonic.fifths + self.sounding.fifths), self.written.mode)
        return key if abs(key.signature) <= MOST_SIGNS else in_fewest_accidentals(key)

    def sound(self, pitch: SpelledPitch) -> SpelledPitch:
        """The pitch that sounds for a written one."""
        if self.sounding == CONCERT:
            return pitch
        heard = transpose(pitch, self.sounding)
        turn = self.turn
        return transpose(heard, turn) if turn.fifths else heard

    @property
    def turn(self) -> Interval:
        """The way to the spelling of a key that would have more than seven signs."""
        fifths = self.key.tonic.fifths - self.written.tonic.fifths - self.sounding.fifths
        return ENHARMONIC if fifths > 0 else -ENHARMONIC if fifths < 0 else CONCERT


def read_attributes(element: Element, held: Attributes, place: Place, left: LeftOut) -> Attributes:
    """What holds once an ``attributes`` element has spoken."""
    divisions = text_at(element, "divisions")
    if divisions:
        count = place.decimal(divisions, "number of divisions")
        if count == 0:
            raise place.fault("a quarter has no divisions")
        held = replace(held, divisions=count)
    for child in element:
        if child.get("number", "1") != "1":
            continue  # another staff of the part
        if child.tag == "key":
            held = replace(held, written=_key(child, held.written, place, left))
        elif child.tag == "time":
            held = replace(held, metre=_metre(child, held.metre, place, left))
        elif child.tag == "transpose":
            held = replace(held, sounding=_sounding(child, place))
    return held


def _key(element: Element, held: Key, place: Place, left: LeftOut) -> Key:
    text = text_at(element, "fifths")
    if not text:
        left.add("a key signature that is neither major nor minor is left out", place.bar)
        return held
    signs = place.whole(text, "key signature", -14, 14)
    mode = text_at(element, "mode").lower()
    mode = mode if mode in MODES else "major"
    key = Key(NoteName(signs - MODES[mode]), mode)
    return key if abs(signs) <= MOST_SIGNS else in_fewest_accidentals(key)


def _metre(element: Element, held: Metre, place: Place, left: LeftOut) -> Metre:
    beats = [(child.text or "").strip() for child in element.findall("beats")]
    units = [place.whole((c.text or "").strip(), "beat type", 1, 64) for c in element.findall("beat-type")]
    if not beats or len(beats) != len(units):
        left.add("a metre without numbers is left out", place.bar)
        return held
    groups: list[tuple[int, int]] = []
    for text, unit in zip(beats, units, strict=True):
        if not BEATS.match(text):
            raise place.fault(f"'{text[:20]}' is no number of beats")
        groups += [(int(count), unit) for count in text.split("+") if int(count)]
    if not is_short_enough(groups):
        raise place.fault("a bar of this metre is too long or too short")
    metre, filled = metre_of_groups(groups)
    if filled:
        left.add("a metre finer than eighths is filled up to whole ones", place.bar)
    return metre


def _sounding(element: Element, place: Place) -> Interval:
    """The transposition; ``double`` adds an octave to what sounds, and moves nothing."""
    chromatic = place.whole(text_at(element, "chromatic", "0").partition(".")[0], "transposition", -99, 99)
    octaves = place.whole(text_at(element, "octave-change", "0"), "octave change", -9, 9)
    diatonic = text_at(element, "diatonic")
    steps = place.whole(diatonic, "diatonic transposition", -99, 99) if diatonic else 0
    # A fifth is 7 semitones and 4 steps, an octave 12 and 7: solved for the two.
    fifths = 7 * chromatic - 12 * steps
    if not diatonic or abs(fifths) > WIDEST:
        near = nearest_interval(7 * chromatic)
        return near + Interval(0, octaves + (chromatic - near.semitones) // 12)
    return Interval(fifths, (steps - 4 * fifths) // 7 + octaves)
