"""What a file has that the song does not, and what was guessed, in short sentences."""

from collections.abc import Iterator, Sequence

from fifthwise.exchange.midi.choose import MidiPart
from fifthwise.exchange.midi.grid import Moved
from fifthwise.exchange.midi.raw import RawPart, RawText
from fifthwise.exchange.midi.sheet_tune import Tune

__all__ = ["other_parts", "part_told", "texts_told", "tune_told"]

MOST_TOLD = 8  # parts that are named as left out
LONGEST = 40  # letters of a text that are shown


def other_parts(parts: Sequence[MidiPart], chosen: MidiPart | None) -> list[str]:
    """Which parts are left out as notes."""
    told = [
        f"'{part.name}' ({part.key}) is left out: {_count(part.notes, 'note')}"
        for part in parts
        if part is not chosen
    ]
    if len(told) > MOST_TOLD:
        told = [*told[:MOST_TOLD], f"{len(told) - MOST_TOLD} more parts are left out"]
    return told


def part_told(part: RawPart) -> list[str]:
    """What the chosen part has that its notes do not say."""
    told = (
        [f"{_count(part.unended, 'note')} of the tune never ended; cut at the next"] if part.unended else []
    )
    return [*told, "bent notes of the tune are written straight"] if part.bends else told


def tune_told(tune: Tune) -> list[str]:
    """What was done to the tune."""
    told = list(_moved(tune.moved))
    if tune.under:
        told.append(f"{_count(tune.under, 'note')} under the tune left out: the highest is kept")
    if tune.lost:
        told.append(f"{_count(tune.lost, 'syllable')} on no note of the tune left out")
    return told


def _moved(moved: Moved) -> Iterator[str]:
    if moved.moved:
        yield (
            f"{moved.moved} of {moved.notes} notes moved to sixteenths or triplets,"
            f" by {moved.mean:.2f} of a quarter on average, {moved.most:.2f} at most"
        )
    if moved.is_doubtful:
        yield "the tune seems to be played without the file's beat: its rhythm and bars are doubtful"


def texts_told(texts: Sequence[RawText], copyright_line: str) -> list[str]:
    """Texts that are neither chords nor sections."""
    told = [f"the copyright line is left out: '{copyright_line[:LONGEST]}'"] if copyright_line else []
    if texts:
        more = f" and {len(texts) - 1} more" if len(texts) > 1 else ""
        told.append(f"a text is left out: '{texts[0].text[:LONGEST]}'{more}")
    return told


def _count(count: int, name: str) -> str:
    return f"{count} {name}" if count == 1 else f"{count} {name}s"
