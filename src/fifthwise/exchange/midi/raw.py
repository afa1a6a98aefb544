"""What the tracks of a MIDI file say, in ticks, before it is a lead sheet."""

from dataclasses import dataclass, field

__all__ = ["RawNote", "RawPart", "RawSong", "RawText"]

DRUMS = 10


@dataclass(slots=True)
class RawNote:
    """One note from tick to tick."""

    start: int
    end: int
    midi: int


@dataclass(frozen=True, slots=True)
class RawText:
    """A text at a tick."""

    at: int
    text: str
    track: int


@dataclass(slots=True)
class RawPart:
    """The notes of one channel of one track.

    Attributes
    ----------
    track, channel : int
        From 1.
    program : int
        From 0; 0 where the file names none.
    unended : int
        Notes that the file never ends.
    bends : int
        Times that the pitch is bent.
    """

    track: int
    channel: int
    name: str = ""
    program: int = 0
    notes: list[RawNote] = field(default_factory=list)
    unended: int = 0
    bends: int = 0

    @property
    def is_drums(self) -> bool:
        """Whether its notes are drums, as General MIDI has them on channel 10."""
        return self.channel == DRUMS


@dataclass(slots=True)
class RawSong:
    """A whole file.

    Attributes
    ----------
    tempos : list of (int, int)
        Tick, and microseconds a quarter.
    metres : list of (int, int, int)
        Tick, count and unit.
    keys : list of (int, str)
        Tick, and the key as in ``Ebm``.
    names : list of str
        Of the tracks.
    """

    ppq: int
    parts: list[RawPart] = field(default_factory=list)
    tempos: list[tuple[int, int]] = field(default_factory=list)
    metres: list[tuple[int, int, int]] = field(default_factory=list)
    keys: list[tuple[int, str]] = field(default_factory=list)
    texts: list[RawText] = field(default_factory=list)
    markers: list[RawText] = field(default_factory=list)
    cues: list[RawText] = field(default_factory=list)
    lyrics: list[RawText] = field(default_factory=list)
    copyright: str = ""
    names: list[str] = field(default_factory=list)
