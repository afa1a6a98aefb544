"""One tune of a file as a lead sheet."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice

from fifthwise.exchange.abc.bars import Room
from fifthwise.exchange.abc.book import TuneText
from fifthwise.exchange.abc.head import read_head
from fifthwise.exchange.abc.limits import MOST_BARS
from fifthwise.exchange.abc.parts import in_order, read_order
from fifthwise.exchange.abc.raw import RawBar
from fifthwise.exchange.abc.to_sheet import lead_bars
from fifthwise.exchange.abc.voices import Voices
from fifthwise.exchange.errors import TooLarge, UnknownPart
from fifthwise.exchange.lead_sheet import LeadBar, LeadSheet
from fifthwise.exchange.left_out import LeftOut

__all__ = ["ReadTune", "TuneVoice", "read_tune"]

TUNE_SHARE = Fraction(1, 2)  # of what the fullest voice sounds: less is no tune
STRAYS = "lines that stand outside of the tune are left out: it begins below K: and ends at an empty line"


@dataclass(frozen=True, slots=True)
class TuneVoice:
    """A voice that may be the tune.

    Attributes
    ----------
    key : str
        What it is asked for by: what stands behind ``V:``.
    notes, chords : int
        How many it has.
    """

    key: str
    name: str
    notes: int
    words: bool
    chords: int


@dataclass(frozen=True, slots=True)
class ReadTune:
    """A tune, read.

    Attributes
    ----------
    number : str
        Behind ``X:``.
    line : int
        Where it begins in the file, from 1.
    sheet : LeadSheet
        Its chords, and the voice that was chosen as its tune.
    voices : tuple of TuneVoice
        Every voice that sounds, or the first.
    chosen : TuneVoice
        The one that is the tune.
    """

    number: str
    line: int
    sheet: LeadSheet
    voices: tuple[TuneVoice, ...]
    chosen: TuneVoice


def read_tune(text: TuneText, room: Room, where: str, part: str | None) -> ReadTune | None:
    """Read a tune; ``None`` where it has no music."""
    left = LeftOut()
    head = read_head(text.head, text.directives, left)
    reader = Voices(head, room, where, left)
    for line in text.body:
        reader.line(line)
    found = [(_voice(*voice), voice[2]) for voice in reader.finish() if voice[2]]
    voices = [voice for voice in found if voice[0].notes or voice[0].chords] or found[:1]
    if not voices:
        return None
    if text.strays:
        left.add(STRAYS, "")
    chosen, bars = _tune(voices, part, where)
    chords = bars if chosen.chords else max(voices, key=lambda voice: voice[0].chords)[1]
    others = [other for voice, other in voices if voice is not chosen]
    lead = tuple(islice(lead_bars(bars, chords, others, left), MOST_BARS + 1))
    lead = _ordered(lead, head.order, left)
    if len(lead) > MOST_BARS:
        raise TooLarge(f"the tune has more than {MOST_BARS} bars", where, "Bring it in parts")
    told = [
        f"voice '{v.name}' is left out: {v.notes} notes" for v, _ in voices if v is not chosen and v.notes
    ]
    if not any(bar.chords for bar in lead):
        told.append("the tune has no chord symbols")
    sheet = LeadSheet(
        head.titles[0] if head.titles else "", lead, head.by, head.feel, (*told, *left.sentences())
    )
    return ReadTune(head.number, text.line, sheet, tuple(voice for voice, _ in voices), chosen)


def _voice(key: str, name: str, bars: Sequence[RawBar]) -> TuneVoice:
    notes = [note for bar in bars for note in bar.notes]
    chords = sum(len(bar.chords) for bar in bars)
    begun = len([note for note in notes if not note.goes_on])
    return TuneVoice(key, name, begun, any([note.syllable for note in notes]), chords)


def _tune(
    voices: Sequence[tuple[TuneVoice, list[RawBar]]], part: str | None, where: str
) -> tuple[TuneVoice, list[RawBar]]:
    """The voice asked for; or the first with words, or the first that is about as full as any."""
    if part is not None:
        asked = part.strip().casefold()
        for found in voices:
            if asked in (found[0].key.casefold(), found[0].name.casefold()):
                return found
        known = ", ".join(f"'{voice.key}'" for voice, _ in voices[:12])
        raise UnknownPart(f"there is no voice '{part[:40]}'", where, f"Write one of {known}")
    most = max(voice.notes for voice, _ in voices)
    full = [found for found in voices if found[0].notes >= most * TUNE_SHARE]
    return next((found for found in full if found[0].words), full[0])


def _ordered(bars: tuple[LeadBar, ...], order: str, left: LeftOut) -> tuple[LeadBar, ...]:
    """Bars in the order of their parts, where the head gives one."""
    letters = read_order(order) if order else ""
    if letters == "":
        return bars
    found = in_order(bars, letters) if letters else None
    if found is None:
        left.add(f"the order of parts '{order[:20]}' names what is not there; parts are as written", "")
        return bars
    return found
