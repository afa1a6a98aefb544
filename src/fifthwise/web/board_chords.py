"""The chords of a song as the fingerboard lists them: where each is first, and what is before and after."""

from collections.abc import Sequence
from dataclasses import dataclass

from fifthwise.chart import WrittenPlace
from fifthwise.page import Figure, letter_figure, number_figure
from fifthwise.theory import Key, LetterChord, NumberChord, Numbering, player_reading, to_letters
from fifthwise.web.song_wish import At, at_text

__all__ = ["ChordLink", "at_of", "chord_before", "chord_link", "letters_of", "neighbours", "turns"]

SILENT = {"nc": "NC", "rest": "rest", "hold": "rest"}


@dataclass(frozen=True, slots=True)
class ChordLink:
    """A chord of the song and a place of it.

    Attributes
    ----------
    at : str
        The place as an address names it.
    key : Key
        The key that holds there.
    number, letters : Figure or None
        ``None`` where nothing sounds.
    silent : str
        What stands there instead: ``rest``, ``NC``.
    """

    at: str
    key: Key
    number: Figure | None
    letters: Figure | None
    silent: str


def at_of(place: WrittenPlace) -> At:
    """A place as an address names it."""
    return place.section, place.bar, place.slot, place.turn


def letters_of(chord: NumberChord, key: Key, numbering: Numbering) -> LetterChord:
    """A chord in the letters that a player reads most easily."""
    return player_reading(to_letters(chord, numbering.one(key)), key)


def chord_link(place: WrittenPlace, key: Key, numbering: Numbering) -> ChordLink:
    """What stands at a place; ``key`` is the key as the strings read it."""
    if place.chord is None:
        return ChordLink(at_text(at_of(place)), key, None, None, SILENT[place.kind])
    number = number_figure(place.chord, lowers=numbering.lowers(key))
    return ChordLink(
        at_text(at_of(place)), key, number, letter_figure(letters_of(place.chord, key, numbering)), ""
    )


def neighbours(
    places: Sequence[WrittenPlace], place: WrittenPlace
) -> tuple[WrittenPlace | None, WrittenPlace | None]:
    """What stands before a place and after it."""
    index = places.index(place)
    before = places[index - 1] if index else None
    return before, places[index + 1] if index + 1 < len(places) else None


def chord_before(places: Sequence[WrittenPlace], place: WrittenPlace) -> WrittenPlace | None:
    """The nearest place before one that has another chord."""
    earlier = reversed(places[: places.index(place)])
    return next((each for each in earlier if each.chord not in (None, place.chord)), None)


def turns(places: Sequence[WrittenPlace], place: WrittenPlace) -> tuple[WrittenPlace, ...]:
    """The same slot in each key that its section is played in; nothing where there is one."""
    same = tuple(p for p in places if at_of(p)[:3] == at_of(place)[:3])
    return same if len(same) > 1 else ()
