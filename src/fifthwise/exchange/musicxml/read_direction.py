"""What is said above a bar: sections, tempos, signs, jumps and words; and its bar lines."""

import re
from fractions import Fraction
from xml.etree.ElementTree import Element

from fifthwise.chart import Mark
from fifthwise.exchange.left_out import LeftOut
from fifthwise.exchange.musicxml.raw import RawBar
from fifthwise.exchange.musicxml.values import Place, text_at
from fifthwise.exchange.plain_texts import plain_words
from fifthwise.exchange.road import Road, leads

__all__ = ["CLOSE", "MARK_WORDS", "OPEN", "read_barline", "read_direction", "read_sound", "reads_otherwise"]

OPEN, CLOSE = "“”"  # round words that would else be read as a sign
# What may be said about the chord that begins there.
MARK_WORDS: dict[str, Mark] = {
    "hold": "hold", "stop": "stop", "push": "push", "push 16": "push16", "late": "late", "accent": "accent",
}  # fmt: skip
PER_MINUTE = re.compile(r"\d{1,4}(?:\.\d{1,6})?")
# Quarters that a note of a tempo lasts.
UNITS = {
    "breve": Fraction(8), "whole": Fraction(4), "half": Fraction(2), "quarter": Fraction(1),
    "eighth": Fraction(1, 2), "16th": Fraction(1, 4), "32nd": Fraction(1, 8),
}  # fmt: skip
SLOWEST, FASTEST = 5, 2000  # quarters a minute that are taken for a tempo
FINEST_TEMPO = 200  # parts of a quarter a minute
MOST_TIMES = 32
LOST = {
    "dynamics": "dynamics are left out",
    "wedge": "dynamics are left out",
    "octave-shift": "octave signs are left out; the notes sound as written in the file",
    "pedal": "pedal signs are left out",
    "scordatura": "a tuning of the strings is left out",
    "accordion-registration": "registers are left out",
    "percussion": "percussion signs are left out",
}


def read_direction(element: Element, at: Fraction, bar: RawBar, place: Place, left: LeftOut) -> None:
    """Read a ``direction`` at a time of a bar."""
    kinds = element.findall("direction-type/*")
    for child in kinds:
        _read_sign(child, bar.road)
        if child.tag == "metronome":
            bar.road.tempo_bpm = _metronome(child, place, left) or bar.road.tempo_bpm
        elif child.tag in LOST:
            left.add(LOST[child.tag], place.bar)
    sound = element.find("sound")
    if sound is not None:
        read_sound(sound, bar.road, place)
    words = plain_words(" ".join(child.text or "" for child in kinds if child.tag == "words"))
    is_tempo = any(child.tag == "metronome" for child in kinds) or (
        sound is not None and sound.get("tempo") is not None
    )
    if words and not leads(words, bar.road):
        _keep(words, at, bar, is_feel=is_tempo and at == 0 and not bar.feel)


def _read_sign(element: Element, road: Road) -> None:
    if element.tag == "rehearsal":
        road.section = road.section or plain_words(element.text or "")
    elif element.tag == "segno":
        road.segno = True
    elif element.tag == "coda":
        road.coda_signs += 1


def reads_otherwise(text: str) -> bool:
    """Whether words would be read as a sign or a mark; in quotes they are words."""
    return text.casefold() in MARK_WORDS or leads(text, Road())


def _keep(text: str, at: Fraction, bar: RawBar, *, is_feel: bool) -> None:
    """Words that speak of a chord, name the feel, or are kept as they are."""
    if text.casefold() in MARK_WORDS:
        bar.marks.append((at, MARK_WORDS[text.casefold()]))
    elif is_feel:
        bar.feel = text
    else:
        bar.words.append((at, text.removeprefix(OPEN).removesuffix(CLOSE)))


def read_sound(element: Element, road: Road, place: Place) -> None:
    """Read what a ``sound`` says about tempo and the way through the song."""
    tempo = element.get("tempo")
    if tempo:
        road.tempo_bpm = _sane(place.decimal(tempo, "tempo")) or road.tempo_bpm
    road.segno |= element.get("segno") is not None
    road.coda |= element.get("coda") is not None
    road.to_coda |= element.get("tocoda") is not None
    road.fine |= element.get("fine", "no") != "no"
    if element.get("dacapo") == "yes":
        road.jump = road.jump or "dc"
    elif element.get("dalsegno") is not None:
        road.jump = road.jump or "ds"


def _metronome(element: Element, place: Place, left: LeftOut) -> Fraction | None:
    """Quarters a minute; ``None`` where it says how one note becomes another."""
    unit, per_minute = element.find("beat-unit"), PER_MINUTE.search(text_at(element, "per-minute"))
    if unit is None or per_minute is None:
        left.add("a tempo that is no number is left out", place.bar)
        return None
    length = UNITS.get((unit.text or "").strip())
    if length is None:
        raise place.fault(f"'{(unit.text or '')[:20]}' is no note for a tempo")
    dots = len(element.findall("beat-unit-dot"))
    return _sane(Fraction(per_minute[0]) * length * (2 - Fraction(1, 2 ** min(dots, 4))))


def _sane(tempo_bpm: Fraction) -> Fraction | None:
    return tempo_bpm.limit_denominator(FINEST_TEMPO) if SLOWEST <= tempo_bpm <= FASTEST else None


def read_barline(element: Element, road: Road, place: Place) -> None:
    """Read the repeats and endings at a bar line."""
    repeat, ending = element.find("repeat"), element.find("ending")
    if repeat is not None and repeat.get("direction") == "forward":
        road.repeat_start = True
    elif repeat is not None:
        times = repeat.get("times", "2")
        road.repeat_end = min(max(place.whole(times, "number of times", 0, 9999), 2), MOST_TIMES)
    if ending is not None and ending.get("type") == "start":
        numbers = {int(number) for number in re.findall(r"\d{1,2}", ending.get("number", ""))}
        road.endings = tuple(sorted(numbers - {0})) or (1,)
    elif ending is not None:
        road.ends_ending = True
    road.segno |= element.find("segno") is not None
    road.coda |= element.find("coda") is not None
