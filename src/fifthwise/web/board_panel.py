"""The panel *Fingerboard* of a song: the player's own instrument, on the chord of the bar touched."""

from dataclasses import dataclass, replace
from typing import Any

from markupsafe import Markup

from fifthwise.chart import Chart, WrittenPlace
from fifthwise.page import BoardSubject, BoardView, PagePart
from fifthwise.strings import Instrument, Level, instrument_names, instrument_of
from fifthwise.theory import Key, NumberChord, Numbering, move_key
from fifthwise.web.board_advice import ChordAdvice, chord_advice
from fifthwise.web.board_chords import (
    ChordLink,
    at_of,
    chord_before,
    chord_link,
    letters_of,
    neighbours,
    turns,
)
from fifthwise.web.board_facts import OpenString, board_picture, finger_lines, open_strings, way_lines
from fifthwise.web.song_music import Places
from fifthwise.web.song_wish import See, Wish, address, at_text, fields

__all__ = ["BoardPanel", "board_panel"]

VIOLIN = "violin"
INSTRUMENTS = instrument_names()
HANDS: dict[Level, str] = {"first": "First", "half": "Half", "third": "Third", "all": "All"}
NARROW = 7  # stops, in semitones
HALF = 1  # the centre of the hand in half position


@dataclass(frozen=True, slots=True)
class BoardPanel:
    """A fingerboard as it is asked for.

    Attributes
    ----------
    wish : Wish
        What the address asks for.
    part : PagePart
        Whose page it is.
    places : Places
        Every place of the song in tonight's key.
    place : WrittenPlace or None
        What was touched.
    subject : BoardSubject
        The instrument, and the key that holds as the strings read it.
    """

    song_id: int
    wish: Wish
    part: PagePart
    chart: Chart
    places: Places
    place: WrittenPlace | None
    subject: BoardSubject

    def at(self, **change: Any) -> str:
        """The address of the page with something changed."""
        return address(self.song_id, self.wish, **change)

    def alone(self, **change: Any) -> str:
        """The address of this panel alone with something changed."""
        return address(self.song_id, self.wish, "board", **change)

    @property
    def untouched(self) -> tuple[str, str]:
        """The addresses of page and panel for a place that is still to be written at their end."""
        found = self.at(at=None, see=None), self.alone(at=None, see=None)
        return found[0] + ("&" if "?" in found[0] else "?"), found[1] + ("&" if "?" in found[1] else "?")

    @property
    def form(self) -> dict[str, str]:
        """What the choice of an instrument sends along."""
        return fields(replace(self.wish, board=""))

    @property
    def asked(self) -> str:
        """The place that the address names."""
        return at_text(self.wish.at)

    @property
    def instrument(self) -> Instrument:
        """The instrument that is drawn."""
        return self.subject.instrument

    @property
    def instruments(self) -> tuple[str, ...]:
        """The instruments to choose from; none where the page has its own."""
        return () if self.part.fingerboard else INSTRUMENTS

    @property
    def key(self) -> Key:
        """The key that holds at the place, as the strings read it."""
        return self.subject.key

    @property
    def lost(self) -> bool:
        """Whether the address names a place that the song does not have."""
        return self.wish.at is not None and self.place is None

    @property
    def chord(self) -> NumberChord | None:
        """The chord that sounds at the place."""
        return self.place.chord if self.place else None

    @property
    def see(self) -> See:
        """What is shown: what was asked for, else the chord touched, else the anchors."""
        asked = self.wish.see or ("chord" if self.place else "anchors")
        return "key" if asked == "chord" and self.chord is None else asked

    @property
    def level(self) -> Level:
        """How far up the hand goes."""
        return self.wish.hand or self.part.level

    @property
    def note(self) -> str:
        """How its letters differ from those of the page, or from what sounds; mostly nothing."""
        if self.part.capo and self.part.fingerboard:
            return "The capo is the nut."
        return "Letters as they sound." if self.part.capo or self.part.written.fifths else ""

    @property
    def hands(self) -> dict[Level, str]:
        """How far up it may go, in words."""
        return HANDS

    @property
    def shown(self) -> BoardView:
        """What is drawn, and how."""
        return BoardView(
            chord=self.chord if self.see == "chord" else None,
            level=self.level,
            centre=HALF if self.level == "half" else None,
            anchors=self.see == "anchors",
            title=False,
        )

    @property
    def upright(self) -> Markup:
        """The picture that stands beside the chart."""
        return board_picture(*self._board, self.shown)

    @property
    def flat(self) -> Markup:
        """The picture at the foot of a small screen: as far up as it has room for, or as was asked."""
        stops = None if self.wide else NARROW
        return board_picture(*self._board, replace(self.shown, horizontal=True, stops=stops))

    @property
    def wide(self) -> bool:
        """Whether that goes further up than a small screen shows."""
        return self.wish.hand in ("third", "all")

    @property
    def marks(self) -> tuple[str, ...]:
        """The slots of which the first that the chart has is marked.

        A bar that is written as the one before has one sign; numbers stand once for all keys of a section.
        """
        if self.place is None:
            return ()
        drawn = replace(self.place, slot=0) if self.place.copied else self.place
        return tuple(dict.fromkeys(at_text(at_of(each)) for each in (drawn, replace(drawn, turn=0))))

    @property
    def where(self) -> str:
        """Where the place is: ``Verse, bar 3``."""
        if self.place is None:
            return ""
        name = self.chart.sections[self.place.section].name or ""
        bar = f"bar {self.place.bar + 1}"
        return f"{name[:1].upper()}{name[1:]}, {bar}" if name else bar.capitalize()

    @property
    def on(self) -> ChordLink | None:
        """What stands at the place."""
        return self._link(self.place)

    @property
    def before(self) -> ChordLink | None:
        """What stands before it."""
        return self._link(neighbours(self.places.every, self.place)[0]) if self.place else None

    @property
    def after(self) -> ChordLink | None:
        """What stands after it."""
        return self._link(neighbours(self.places.every, self.place)[1]) if self.place else None

    @property
    def chords(self) -> tuple[ChordLink, ...]:
        """The different chords of the song."""
        return tuple(link for place in self.places.chords if (link := self._link(place)))

    @property
    def turns(self) -> tuple[ChordLink, ...]:
        """The place in each key that it is played in, where there are several."""
        found = turns(self.places.every, self.place) if self.place else ()
        return tuple(link for place in found if (link := self._link(place)))

    @property
    def opens(self) -> tuple[OpenString, ...]:
        """What the open strings are over what is shown."""
        over = self.chord if self.see == "chord" else None
        letters = letters_of(over, self.key, self.subject.numbering) if over else None
        return open_strings(self.subject, letters)

    @property
    def advice(self) -> ChordAdvice | None:
        """What to play over the chord that is shown, after the one before it."""
        if self.place is None or self.chord is None or self.see != "chord":
            return None
        before = chord_before(self.places.every, self.place)
        key, numbering = self.key, self.subject.numbering
        left = (
            before
            and before.chord
            and letters_of(before.chord, strings_key(before.key, self.part), numbering)
        )
        return chord_advice(self.chord, key, numbering, left or None)

    @property
    def fingers(self) -> tuple[str, ...]:
        """How the fingers stand in the key."""
        return finger_lines(*self._board)

    @property
    def ways(self) -> tuple[str, ...]:
        """The easiest way to the anchors."""
        return way_lines(*self._board, self.level)

    @property
    def _board(self) -> tuple[str, Key, Numbering]:
        return self.subject.instrument.name, self.subject.key, self.subject.numbering

    def _link(self, place: WrittenPlace | None) -> ChordLink | None:
        if place is None:
            return None
        return chord_link(place, strings_key(place.key, self.part), self.subject.numbering)


def board_panel(song_id: int, wish: Wish, part: PagePart, chart: Chart, places: Places) -> BoardPanel:
    """The fingerboard that an address asks for.

    Parameters
    ----------
    chart : Chart
        The song in tonight's key.
    places : Places
        Its places.
    """
    place = next((place for place in places.every if at_of(place) == wish.at), None)
    key = strings_key(place.key if place else chart.key, part)
    subject = BoardSubject(instrument_of(part.fingerboard or wish.board or VIOLIN), key, chart.numbering)
    return BoardPanel(song_id, wish, part, chart, places, place, subject)


def strings_key(sounding: Key, part: PagePart) -> Key:
    """The key that the strings are played in while another sounds: a capo is their nut."""
    return move_key(sounding, -part.capo) if part.capo and part.fingerboard else sounding
