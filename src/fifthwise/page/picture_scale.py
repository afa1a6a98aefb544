"""Where a picture of a voice puts things: pitches upwards, time to the right, and words broken to fit."""

from dataclasses import dataclass

from fifthwise.theory import SpelledPitch
from fifthwise.voice import SungProfile

__all__ = ["Scale", "broken", "note_rows", "turn_band"]

# The width of a letter against the font size, on the average of English text in our font.
LETTER = 0.53


@dataclass(frozen=True, slots=True)
class Scale:
    """Pitch to height: a row a semitone, the highest on top.

    Attributes
    ----------
    lowest, highest : int
        MIDI notes of the last and the first row.
    top : float
        Where the first row begins.
    row : float
        Height of a row.
    """

    lowest: int
    highest: int
    top: float
    row: float

    def y(self, midi: float) -> float:
        """The middle of a pitch's row."""
        return self.top + (self.highest - midi + 0.5) * self.row

    @property
    def bottom(self) -> float:
        """Where the last row ends."""
        return self.top + (self.highest - self.lowest + 1) * self.row


def scale_of(profiles: tuple[SungProfile, ...], top: float, row: float) -> Scale:
    """A scale that shows all that is sung and all that the singer reaches, with a row to spare."""
    sung = [time.pitch.midi for profile in profiles for time in profile.pitches]
    ends = [pitch.midi for p in profiles for pitch in (p.usable.low, p.usable.high, *p.turns)]
    return Scale(min(sung + ends) - 1, max(sung + ends) + 1, top, row)


def turn_band(turns: tuple[SpelledPitch, ...]) -> tuple[int, int] | None:
    """The change-over in MIDI notes: a single note takes its neighbours a half step away with it."""
    if not turns:
        return None
    return (turns[0].midi - 1, turns[0].midi + 1) if len(turns) == 1 else (turns[0].midi, turns[-1].midi)


def note_rows(profile: SungProfile) -> dict[int, list[str]]:
    """What the singer's own notes mean, by MIDI note; two meanings may share one row."""
    rows: dict[int, list[str]] = {}
    told = [
        (profile.usable.high, "highest"),
        (profile.comfort.high, "easy up to"),
        (profile.comfort.low, "easy down to"),
        (profile.usable.low, "lowest"),
        *((turn, "change-over") for turn in profile.turns),
    ]
    for pitch, meaning in told:
        rows.setdefault(pitch.midi, []).append(f"{meaning} {pitch}")
    return rows


def broken(text: str, width: float, size: float) -> list[str]:
    """Break a sentence into lines of about a width."""
    room, lines = int(width / (size * LETTER)), [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if len(longer) > room and lines[-1]:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines
