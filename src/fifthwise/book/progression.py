"""Progressions as they are asked for: ``6- 4 1 5``.

A chord that is asked for stands for one chord or several in a row, all of which it fits. It fits by its
number and its third, whatever else they add: ``5`` fits 5, 57, 5+ and 5/7, ``6-`` fits 6- and 6-7, ``7o``
fits 7o7 and 7ø7. A chord without a third, such as 4sus or 4(5), is fitted by a major and by a minor number.
What else is said has to be there as it is said: ``57`` fits no plain 5, ``5/7`` no other bass.
"""

import re
from dataclasses import dataclass
from itertools import groupby

from fifthwise.book.chord_index import BREAK, NO_THIRD, quality_sign, third_of
from fifthwise.book.errors import SearchFault
from fifthwise.theory import ChordFault, NumberChord, Quality, read_number_chord, recount

__all__ = ["MOST_CHORDS", "Progression", "read_progression"]

MOST_CHORDS = 16
TOKEN = re.compile(r"[^\s,|:()]+(?:\([^()]*\)[^\s,|:()]*)*|[^\s,|:]")
# Which thirds each number fits, in the signs of the index; ``_`` is any.
FITTED = {"jx": "j_", "xn": "_n", "xd": "_d", NO_THIRD: "__"}
PLAIN_TRIADS = ("", "-", "o")
RAISED = "+"  # a raised fifth, asked for with any colour
ANY_COLOUR = "[^ /]*"
FROM_HOME = 3  # places on the line of fifths from 1 to 6


@dataclass(frozen=True, slots=True)
class Progression:
    """A progression asked for.

    Attributes
    ----------
    chords : tuple of NumberChord
        As they were typed; equal chords one after the other are one.
    """

    chords: tuple[NumberChord, ...]

    @property
    def like(self) -> str:
        """What ``families`` has to be like; ``_`` and ``%`` as SQL reads them."""
        wanted: list[tuple[str, str]] = []
        for root, group in groupby(self.chords, lambda chord: str(chord.root)):
            fitted = [FITTED[third_of(chord.quality)] for chord in group]
            # Beside a chord on its root one without a third has that one's third, so it says nothing here.
            sure = [third for third in fitted if third != FITTED[NO_THIRD]] or fitted[:1]
            wanted += [(root, third) for third, _ in groupby(sure)]
        return "% " + " ".join(root + third for root, third in wanted) + " %"

    @property
    def pattern(self) -> str:
        """What a part of ``chords`` has to match."""
        # Written so that the pattern begins with plain signs, which are looked for fast.
        each = (f" {_chord_pattern(chord)}" for chord in self.chords)
        return "".join(f"{one}(?:{one})*" for one in each)

    @property
    def details(self) -> tuple[str, ...]:
        """What ``chords`` has to be like, each, for the chords that ask for more than number and third.

        Empty where ``like`` says all. Where it is not, ``pattern`` decides; this spares most songs it.
        """
        return tuple(sorted({_detail(chord) for chord in self.chords if not _is_plain(chord)}))

    def in_opening(self, chords: str, length: int, *, minor: bool) -> tuple[int, int] | None:
        """Where this is first found in a song's opening: from, and up to but not including.

        Parameters
        ----------
        chords : str
            The text of the index.
        length : int
            How many chords the opening has.
        minor : bool
            Whether the song begins in a minor key, so that it may be counted from home.
        """
        first = _first_chords(chords, length)
        found = re.search(self.pattern, first)
        if found is None and minor:
            found = re.search(self._from_home().pattern, first)
        return (
            None
            if found is None
            else (_count(first[: found.start()].split()), _count(first[: found.end()].split()))
        )

    def _from_home(self) -> "Progression":
        return Progression(tuple(recount(chord, FROM_HOME) for chord in self.chords))


def read_progression(text: str) -> Progression:
    """Read a progression; bar lines, repeat signs and commas stand between chords as blanks do.

    Raises
    ------
    SearchFault
        It has no chord, more than ``MOST_CHORDS``, or what is no chord.
    """
    tokens = TOKEN.findall(text)
    if not tokens:
        raise SearchFault("there is no chord in it", "progression", "Write numbers, as in '6- 4 1 5'")
    if len(tokens) > MOST_CHORDS:
        raise SearchFault(f"it has {len(tokens)} chords", "progression", f"Write at most {MOST_CHORDS}")
    chords = (_read(token, number) for number, token in enumerate(tokens, 1))
    return Progression(tuple(chord for chord, _ in groupby(chords)))


def _read(token: str, number: int) -> NumberChord:
    try:
        return read_number_chord(token)
    except ChordFault as fault:
        fix = fault.fix if fault.mends else "Write numbers, as in '6- 4 1 5'"
        raise SearchFault(fault.what, f"progression, chord {number}", fix) from fault


def _is_plain(chord: NumberChord) -> bool:
    return chord.bass is None and _has_any_colour(chord.quality)


def _has_any_colour(quality: Quality) -> bool:
    """Whether a quality says no more than its third."""
    return not quality.base and not quality.changes and quality.triad in PLAIN_TRIADS


def _detail(chord: NumberChord) -> str:
    quality = "%" if _has_any_colour(chord.quality) else quality_sign(chord.quality)
    if quality == RAISED:
        quality += "%"
    bass = "" if chord.bass is None else f"{chord.bass} "
    return f"% {chord.root}:__:{quality}/{bass}%"


def _chord_pattern(chord: NumberChord) -> str:
    third = FITTED[third_of(chord.quality)].replace("_", ".")
    quality = re.escape(quality_sign(chord.quality))
    if _has_any_colour(chord.quality):
        quality = ANY_COLOUR
    elif quality == re.escape(RAISED):
        quality += ANY_COLOUR
    bass = "[^ ]*" if chord.bass is None else re.escape(str(chord.bass))
    return f"{re.escape(str(chord.root))}:{third}:{quality}/{bass}(?= )"


def _first_chords(chords: str, length: int) -> str:
    tokens = chords.split()
    ends = (place for place in range(len(tokens) + 1) if _count(tokens[:place]) == length)
    return f" {' '.join(tokens[: next(ends)])} "


def _count(tokens: list[str]) -> int:
    """How many of the tokens of the index are chords."""
    return sum(token != BREAK for token in tokens)
