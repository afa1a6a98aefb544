"""The forms of a singer and of a player, read: every fault at once, each at its field, and no text lost."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from fifthwise.book import NameFault, checked_name
from fifthwise.errors import FifthwiseError
from fifthwise.evening import SHOWS, Part, PartFault, Player, part_of
from fifthwise.page import printed
from fifthwise.strings import LEVELS
from fifthwise.theory import NoteFault, SpelledPitch, read_pitch
from fifthwise.voice import Range, Singer

__all__ = [
    "NOTE_FIELDS",
    "FormFault",
    "Reading",
    "player_texts",
    "read_notes",
    "read_player_form",
    "read_singer_form",
    "read_version",
    "singer_texts",
]

NOTE_FIELDS = {
    "low": "Lowest note",
    "high": "Highest note",
    "easy_low": "Easy from",
    "easy_high": "Easy up to",
    "turn": "Turns at",
    "turn_to": "Turns up to",
}
NEEDED = ("low", "high", "easy_low", "easy_high")
# The lower note, the higher one, and what is wrong, at the second, when they are the other way round.
RISING = (
    ("low", "high", "high", "it is below the lowest note"),
    ("low", "easy_low", "easy_low", "it is below the lowest note"),
    ("easy_low", "easy_high", "easy_high", "it is below where the easy notes begin"),
    ("easy_high", "high", "easy_high", "it is above the highest note"),
)

Person = TypeVar("Person")
Value = TypeVar("Value")


class FormFault(FifthwiseError):
    """Something in a form that cannot be kept as it is."""


@dataclass(frozen=True, slots=True)
class Reading(Generic[Person]):
    """What a form says.

    Attributes
    ----------
    texts : mapping
        The form's texts by field, mended where they could be read: ``bb 4`` is B♭4.
    person : Singer, Player or None
        ``None`` where there are faults.
    faults : mapping
        What is wrong, by field.
    """

    texts: Mapping[str, str]
    person: Person | None
    faults: Mapping[str, FifthwiseError]


def read_singer_form(form: Mapping[str, str]) -> Reading[Singer]:
    """Read a singer's form."""
    faults: dict[str, FifthwiseError] = {}
    name = _kept("name", form, faults, lambda text: checked_name(text, "Name"))
    notes = read_notes(form, faults)
    for field in NEEDED:
        if field not in notes and field not in faults:
            faults[field] = FormFault("it is missing", NOTE_FIELDS[field], "Write a note, as in A3 or B♭4")
    _check_rising(notes, faults)
    texts = {"name": form.get("name", ""), **_note_texts(form, notes)}
    if faults or name is None:
        return Reading(texts, None, faults)
    turns = (notes[field] for field in ("turn", "turn_to") if field in notes)
    reach, easy = Range(notes["low"], notes["high"]), Range(notes["easy_low"], notes["easy_high"])
    return Reading(texts, Singer(name, reach, easy, tuple(sorted(turns, key=lambda note: note.midi))), {})


def read_notes(
    form: Mapping[str, str], faults: dict[str, FifthwiseError] | None = None
) -> dict[str, SpelledPitch]:
    """Read those notes of a singer's form that are there and can be read.

    Parameters
    ----------
    faults : dict, optional
        Where to put what cannot be read.
    """
    notes: dict[str, SpelledPitch] = {}
    for field, label in NOTE_FIELDS.items():
        text = "".join(form.get(field, "").split())
        try:
            if text:
                notes[field] = read_pitch(text)
        except NoteFault:
            if faults is not None:
                what = f"‘{form[field].strip()}’ is no note with its octave"
                faults[field] = FormFault(what, label, "Write a letter and a number, as in A3 or B♭4")
    return notes


def singer_texts(singer: Singer) -> dict[str, str]:
    """A singer as the form's texts."""
    low, high = singer.usable.low, singer.usable.high
    given = (low, high, singer.comfort.low, singer.comfort.high, *singer.turns)
    notes = dict(zip(NOTE_FIELDS, given, strict=False))
    return {"name": singer.name, **_note_texts({}, notes)}


def read_player_form(form: Mapping[str, str]) -> Reading[Player]:
    """Read a player's form. A capo is kept only with an instrument that may take one."""
    faults: dict[str, FifthwiseError] = {}
    name = _kept("name", form, faults, lambda text: checked_name(text, "Name"))
    part = _kept("instrument", form, faults, _part)
    level = _kept("level", form, faults, lambda text: _one_of(text, LEVELS, "Level"))
    show = _kept("show", form, faults, lambda text: _one_of(text, SHOWS, "Shows"))
    fields = ("name", "instrument", "level", "show", "capo")
    texts = {field: form.get(field, "") for field in fields}
    if faults or name is None or part is None:
        return Reading(texts, None, faults)
    capo = part.capo and form.get("capo") == "yes"
    return Reading(texts, Player(name, part, level or None, show or part.show, capo), {})


def player_texts(player: Player) -> dict[str, str]:
    """A player as the form's texts; what the instrument shows of itself is not chosen."""
    show = "" if player.show == player.part.show else player.show
    capo = "yes" if player.capo else ""
    return {
        "name": player.name,
        "instrument": player.part.name,
        "level": player.level or "",
        "show": show,
        "capo": capo,
    }


def read_version(form: Mapping[str, str], name: str) -> int:
    """The version that was seen.

    Raises
    ------
    FormFault
        The form does not say it.
    """
    text = form.get("version", "")
    if not (text.isascii() and text.isdecimal() and len(text) < 10):
        raise FormFault("it is not said which version was seen", name, "Open the page and begin again")
    return int(text)


def _kept(
    field: str,
    form: Mapping[str, str],
    faults: dict[str, FifthwiseError],
    read: Callable[[str], Value],
) -> Value | None:
    try:
        return read(form.get(field, ""))
    except (FormFault, NameFault, PartFault) as fault:
        faults[field] = fault
        return None


def _part(text: str) -> Part:
    if not text.strip():
        raise FormFault("no instrument is chosen", "Instrument", "Choose one")
    return part_of(text)


Word = TypeVar("Word", bound=str)


def _one_of(text: str, known: tuple[Word, ...], label: str) -> Word | None:
    found = next((word for word in known if word == text), None)
    if text and found is None:
        raise FormFault(f"‘{text}’ is not known", label, "Choose another")
    return found


def _check_rising(notes: Mapping[str, SpelledPitch], faults: dict[str, FifthwiseError]) -> None:
    for lower, upper, field, what in RISING:
        if lower in notes and upper in notes and notes[lower].midi > notes[upper].midi:
            other = upper if field == lower else lower
            fix = f"{NOTE_FIELDS[other]} is {printed(notes[other])}: change one of the two"
            faults.setdefault(field, FormFault(what, NOTE_FIELDS[field], fix))


def _note_texts(form: Mapping[str, str], notes: Mapping[str, SpelledPitch]) -> dict[str, str]:
    return {
        field: printed(notes[field]) if field in notes else form.get(field, "").strip()
        for field in NOTE_FIELDS
    }
