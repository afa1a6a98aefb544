"""Made-up tunes for tests, put together from their lines."""

from fifthwise.exchange.abc import read_abc
from fifthwise.theory import write_letters


def tune(*body, head=("M:4/4", "L:1/4"), key="C"):
    """A tune of some lines of music."""
    return "\n".join(("X:1", "T:Tune", *head, f"K:{key}", *body)) + "\n"


def read(*body, part=None, **head):
    """Read one tune."""
    return read_abc(tune(*body, **head), "song.abc", part=part).tunes[0]


def sheet(*body, **head):
    """The lead sheet of one tune."""
    return read(*body, **head).sheet


def heard(made):
    """The notes of a sheet, bar by bar, as ``C#4:1`` of their pitches and quarters."""
    return [
        " ".join("+".join(str(p) for p in n.pitches) + f":{n.length}" for n in bar.notes) for bar in made.bars
    ]


def notes(*body, **head):
    """The notes of some lines of music, bar by bar."""
    return heard(sheet(*body, **head))


def letters(made):
    """The chords of a sheet, bar by bar."""
    return [[None if c.chord is None else write_letters(c.chord) for c in bar.chords] for bar in made.bars]
