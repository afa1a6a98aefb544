"""A lyric sheet as values: blocks in playing order, lines of words, chords over the words they begin on."""

from dataclasses import dataclass

__all__ = ["LyricBlock", "LyricChord", "LyricLine", "LyricSheet", "Piece"]


@dataclass(frozen=True, slots=True)
class LyricChord:
    """A chord as it stands over a word.

    Attributes
    ----------
    root, triad, raised, bass : str
        The number taken apart for print: ``6``, ``–``, ``7``, ``/3``; only ``root`` is never empty.
    letters : str
        The same chord in letters.
    """

    root: str
    triad: str
    raised: str
    bass: str
    letters: str

    @property
    def number(self) -> str:
        """The number in one piece."""
        return f"{self.root}{self.triad}{self.raised}{self.bass}"


@dataclass(frozen=True, slots=True)
class Piece:
    """One word, or a place without one, and what stands over it.

    Attributes
    ----------
    word : str
        May be empty.
    chord : LyricChord or None
        The chord that begins here.
    bar : bool
        Whether a bar begins here.
    cue : str
        Words for everyone at this place; may be empty.
    joins : bool
        Whether the next piece goes on with the same word.
    """

    word: str = ""
    chord: LyricChord | None = None
    bar: bool = False
    cue: str = ""
    joins: bool = False


@dataclass(frozen=True, slots=True)
class LyricLine:
    """A line of the song as it is sung."""

    pieces: tuple[Piece, ...]

    @property
    def has_words(self) -> bool:
        """Whether anything is sung."""
        return any(piece.word for piece in self.pieces)

    @property
    def rooms(self) -> tuple[int, ...]:
        """For each piece, the letters and spaces over which its chord may reach before the next."""
        rooms: list[int] = []
        for piece, after in zip(reversed(self.pieces), (None, *reversed(self.pieces)), strict=False):
            reaches = after is not None and not (after.chord or after.bar or after.cue)
            space = 0 if piece.joins else 1
            rooms.append(len(piece.word) + (space + rooms[-1] if reaches else 0))
        return tuple(reversed(rooms))

    @property
    def bars(self) -> int:
        """How many bars begin in it."""
        return sum(piece.bar for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class LyricBlock:
    """One playing of a section.

    Attributes
    ----------
    name : str
        As it is printed; may be empty.
    bars : int
        How many are played in all.
    times : int
        How often ``lines`` are sung in a row.
    key : str
        The new key, where it changes here; otherwise empty.
    cues : tuple of str
        Words for everyone at its heading, the cue of an open vamp included.
    again : bool
        Whether the very same block was written out before.
    """

    name: str
    bars: int
    lines: tuple[LyricLine, ...]
    times: int = 1
    key: str = ""
    cues: tuple[str, ...] = ()
    again: bool = False

    @property
    def is_sung(self) -> bool:
        """Whether it has words."""
        return any(line.has_words for line in self.lines)

    @property
    def length(self) -> int:
        """Bars of one time through."""
        return self.bars // self.times


@dataclass(frozen=True, slots=True)
class LyricSheet:
    """A song for its singer.

    Attributes
    ----------
    key : str
        Tonight's.
    facts : tuple of str
        Metre, tempo and feel.
    start : str
        The first sung note in words; empty where no tune is written.
    reach : str
        The lowest and the highest sung note in words; empty where the tune floats.
    """

    title: str
    by: str
    singer: str
    key: str
    facts: tuple[str, ...]
    start: str
    reach: str
    blocks: tuple[LyricBlock, ...]
