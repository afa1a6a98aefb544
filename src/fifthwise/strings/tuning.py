"""Any tuning that a player writes: ``A3 E4 A4 E5``, or ``AEAE`` for the nearest such notes."""

import re
from dataclasses import replace

from fifthwise.strings.errors import TuningFault
from fifthwise.strings.instrument import Instrument
from fifthwise.theory import NoteFault, SpelledPitch, plain_accidentals, read_note, read_pitch

__all__ = ["tuned"]

STRING = re.compile(r"[A-Ga-g](?:bb|##|b|#)?(?:-?\d)?")
BETWEEN = re.compile(r"[\s,;]+")
PITCHED = re.compile(r".*\d\Z")
# A string that is tuned further away than this is another string.
FURTHEST = 7


def tuned(instrument: Instrument, tuning: str) -> Instrument:
    """An instrument in another tuning (scordatura).

    Parameters
    ----------
    tuning : str
        One note a string, low to high, with octaves or without: ``A3 E4 A4 E5`` or ``AEAE``. A note without
        an octave is the one nearest to the instrument's own string.

    Raises
    ------
    TuningFault
        It cannot be read, has another number of strings than the instrument, or a string lies more than a
        fifth from its own.
    """
    plain = plain_accidentals(tuning)
    names = STRING.findall(plain)
    if BETWEEN.sub("", plain) != "".join(names) or not names:
        fix = "Write a note for each string, as in 'A3 E4 A4 E5' or 'AEAE'"
        raise TuningFault(f"'{tuning}' is no tuning", "tuning", fix)
    if len(names) != len(instrument.strings):
        count = f"{len(names)} string{'s' * (len(names) != 1)}"
        what = f"{count} for a {instrument.label.lower()} with {len(instrument.strings)}"
        raise TuningFault(what, "tuning", f"Write {len(instrument.strings)} notes, low to high")
    strings = tuple(_string(name, own) for name, own in zip(names, instrument.strings, strict=True))
    return replace(instrument, strings=strings)


def _string(name: str, own: SpelledPitch) -> SpelledPitch:
    try:
        pitch = read_pitch(name) if PITCHED.match(name) else _nearest(name, own)
    except NoteFault as fault:
        raise TuningFault(fault.what, "tuning", fault.fix) from fault
    away = pitch.midi - own.midi
    if abs(away) > FURTHEST:
        way = "above" if away > 0 else "below"
        what = f"{pitch} lies {abs(away)} semitones {way} the {own} string"
        raise TuningFault(what, "tuning", "Stay within a fifth of the usual string, or it slackens or breaks")
    return pitch


def _nearest(name: str, own: SpelledPitch) -> SpelledPitch:
    fifths = read_note(name).fifths
    octaves = (SpelledPitch(fifths, own.octave + octave) for octave in (-1, 0, 1))
    return min(octaves, key=lambda pitch: abs(pitch.midi - own.midi))
