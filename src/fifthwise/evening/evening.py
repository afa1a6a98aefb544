"""An evening: singers, players and songs in running order."""

from dataclasses import dataclass

from fifthwise.evening.parts import Part
from fifthwise.page import Paper, Show
from fifthwise.strings import Level
from fifthwise.voice import Singer

__all__ = ["Evening", "Player", "SetSong"]


@dataclass(frozen=True, slots=True)
class Player:
    """Who plays what, and how the pages should look.

    Attributes
    ----------
    level : str or None
        Where on the fingerboard the player is at home.
    show : str
        ``numbers``, ``letters``, ``both`` or ``roman``.
    capo : bool
        Whether a guitar may use a capo.
    """

    name: str
    part: Part
    level: Level | None = None
    show: Show = "both"
    capo: bool = False


@dataclass(frozen=True, slots=True)
class SetSong:
    """One song of the running order.

    Attributes
    ----------
    chart : str
        The chart's file, beside the evening's.
    singer : str or None
        Who sings; ``None`` for an instrumental.
    key : str or None
        The key that was called, as written; ``None`` takes the one that suits the singer.
    counts_in : str or None
        Who counts in.
    segue : bool
        Whether the next song follows without a stop.
    line : int
        Where it stands in the evening's file.
    """

    chart: str
    singer: str | None = None
    key: str | None = None
    counts_in: str | None = None
    segue: bool = False
    line: int = 0


@dataclass(frozen=True, slots=True)
class Evening:
    """A whole evening.

    Attributes
    ----------
    date : str or None
        As written.
    paper : str
        ``a4`` or ``letter``.
    """

    name: str
    date: str | None
    singers: tuple[Singer, ...]
    players: tuple[Player, ...]
    songs: tuple[SetSong, ...]
    paper: Paper = "a4"

    def singer(self, name: str) -> Singer:
        """The singer of that name."""
        return next(singer for singer in self.singers if singer.name == name)
