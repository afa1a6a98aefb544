"""How a page reads chords: which key its letters are in, and what stands large and small."""

from dataclasses import dataclass

from fifthwise.page.layout_bar import Figure
from fifthwise.page.layout_figure import letter_figure, number_figure, roman_figure
from fifthwise.page.layout_model import Respelling
from fifthwise.page.layout_view import PagePart, PageView
from fifthwise.theory import (
    Key,
    LetterChord,
    NoteName,
    NumberChord,
    Numbering,
    in_fewest_accidentals,
    move_key,
    player_reading,
    to_letters,
)

__all__ = ["Reader", "reading_key"]

MOST_ACCIDENTALS = 6  # a part with seven reads easier in the other name, with five


def reading_key(part: PagePart, sounding: Key) -> Key:
    """The key in which a part reads while ``sounding`` is heard; in concert pitch as it was called."""
    if part.capo:
        return move_key(sounding, -part.capo)
    if not part.written.fifths:
        return sounding
    key = Key(NoteName(sounding.tonic.fifths + part.written.fifths), sounding.mode)
    return key if abs(key.signature) <= MOST_ACCIDENTALS else in_fewest_accidentals(key)


@dataclass(frozen=True, slots=True)
class Reader:
    """One page's way of reading a song's chords."""

    view: PageView
    numbering: Numbering

    def key(self, sounding: Key) -> Key:
        """The key in which this page's letters stand while ``sounding`` is heard."""
        return reading_key(self.view.part, sounding)

    @property
    def moves(self) -> bool:
        """Whether letters differ from what sounds."""
        return bool(self.view.part.capo or self.view.part.written.fifths)

    def letters(self, chord: NumberChord, sounding: Key) -> LetterChord:
        """A chord in this page's letters."""
        key = self.key(sounding)
        return player_reading(to_letters(chord, self.numbering.one(key)), key)

    def respelling(self, chord: NumberChord, sounding: Key) -> Respelling | None:
        """What was respelled for the player, if this chord was."""
        if not self.has_letters:
            return None
        shown = self.letters(chord, sounding)
        strict = to_letters(chord, self.numbering.one(self.key(sounding)))
        if shown == strict:
            return None
        return Respelling(letter_figure(shown).text, letter_figure(strict).text)

    @property
    def has_letters(self) -> bool:
        """Whether letters stand on the page."""
        return self.view.show in ("letters", "both")

    def number(self, chord: NumberChord, sounding: Key) -> Figure:
        """A chord as this page numbers it: Roman numerals only where they are asked for."""
        lowers = self.numbering.lowers(sounding)
        figure = roman_figure if self.view.show == "roman" else number_figure
        return figure(chord, lowers=lowers)

    def main(self, chord: NumberChord, sounding: Key) -> Figure:
        """What stands large."""
        if self.view.show == "letters":
            return letter_figure(self.letters(chord, sounding))
        return self.number(chord, sounding)

    def small(self, chord: NumberChord, sounding: Key) -> Figure | None:
        """The letters beneath, if any."""
        return letter_figure(self.letters(chord, sounding)) if self.view.show == "both" else None
