"""What becomes of a file that is brought in: its songs, what is told beside them, and what may be settled."""

from dataclasses import dataclass

from fifthwise.chart import Chart, Fault
from fifthwise.errors import FifthwiseError
from fifthwise.theory import Key, MinorWay, Numbering, PlainWay

__all__ = ["NO_WISH", "FoundSong", "Incoming", "Option", "Question", "Wish"]


@dataclass(frozen=True, slots=True)
class Wish:
    """What is settled beforehand; ``None`` leaves it to the file, or to the reader.

    Attributes
    ----------
    part : str or None
        The line that is the tune, as a question's option names it.
    key : Key or None
        In which the song stands.
    title : str or None
        Whatever the file says.
    numbers : tuple of (str, str)
        How a number sheet is typed: choices of a convention and the options taken.
    bars : str or None
        How long the chords of a sheet without bar lines last.
    """

    part: str | None = None
    key: Key | None = None
    title: str | None = None
    minor: MinorWay = "from-six"
    plain: PlainWay = "explicit"
    numbers: tuple[tuple[str, str], ...] = ()
    bars: str | None = None

    @property
    def numbering(self) -> Numbering:
        """How the numbers of the made chart count."""
        return Numbering(self.minor, self.plain)


NO_WISH = Wish()


@dataclass(frozen=True, slots=True)
class Option:
    """One answer to a question.

    Attributes
    ----------
    value : str
        As a wish has it.
    words : str
        What a player reads.
    consequence : str
        What follows from it, in words; may be empty.
    """

    value: str
    words: str
    consequence: str = ""


@dataclass(frozen=True, slots=True)
class Question:
    """Something that the reader guessed, and that a player may settle otherwise.

    Attributes
    ----------
    name : str
        The wish that settles it: ``part``, ``key``, ``bars``, or ``numbers-`` and a choice of a convention.
    text : str
        As it is asked, with its question mark.
    chosen : str
        The value of the option that was taken.
    sure : bool
        Whether hardly anything speaks for another.
    """

    name: str
    text: str
    options: tuple[Option, ...]
    chosen: str
    sure: bool = False


@dataclass(frozen=True, slots=True)
class FoundSong:
    """A song of a file.

    Attributes
    ----------
    text : str
        What is kept; a chart's own text word for word.
    told : tuple of str
        What the song cannot hold, and what was settled or guessed; short sentences without a full stop.
    notices : tuple of Fault
        The same, where the file is a text and has a place for it.
    """

    chart: Chart
    text: str
    told: tuple[str, ...] = ()
    questions: tuple[Question, ...] = ()
    notices: tuple[Fault, ...] = ()

    @property
    def doubtful(self) -> bool:
        """Whether anything was guessed that may as well be otherwise."""
        return any(not question.sure for question in self.questions)


@dataclass(frozen=True, slots=True)
class Incoming:
    """A file, read.

    Attributes
    ----------
    kind : str
        What it is, as a player calls it: ``MusicXML``.
    songs : tuple of FoundSong
        In the file's order.
    failed : tuple of FifthwiseError
        Songs of it that cannot be read, where the others can.
    """

    kind: str
    songs: tuple[FoundSong, ...]
    failed: tuple[FifthwiseError, ...] = ()
