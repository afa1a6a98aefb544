"""Notes to land on: a chord's tones, best first, and how each is reached from the chord before.

The third and the seventh tell a chord and move to the next one by the nearest step (guide tones:
musictheorymanual.com, jacmuse.com). The order after them is common practice, no source: an altered fifth,
which tells the chord too, the root, the fifth, then colours and a strange bass.
"""

from dataclasses import dataclass

from fifthwise.strings.advice.roles import COUNTED, ChordTone, Role, chord_tones_of, degree_text
from fifthwise.theory import Degree, Key, LetterChord, NoteName, NumberChord, Numbering, note_of, to_number

__all__ = ["LandingNote", "landing"]

ORDER: tuple[Role, ...] = ("third", "seventh", "root", "fifth", "colour", "bass")
ALTERED_FIFTH = 1.5  # after the seventh, before the root
GUIDES = ("third", "seventh")
OCTAVE, TRITONE = 12, 6
STEPS = {1: "a half step", 2: "a step"}


@dataclass(frozen=True, slots=True)
class LandingNote:
    """A note to land on when a chord comes.

    Attributes
    ----------
    degree, above : Degree
        Counted from the key's 1; counted from the chord's root.
    name : str
        What it is in the chord: ``root``, ``b3``, ``5``, ``9``.
    role : {'third', 'seventh', 'root', 'fifth', 'colour', 'bass'}
        See ``ChordTone``.
    source : Degree or None
        The nearest tone of the chord before, counted from the 1 that holds now; ``None`` where there is no
        chord before.
    step : int or None
        Semitones from there, below 0 downwards; 0 is a common tone.
    written : str
        The degree as the song writes it.
    words : str
        ``7: the chord's 3, a half step down from 1``.
    """

    note: NoteName
    degree: Degree
    above: Degree
    name: str
    role: Role
    source: Degree | None
    step: int | None
    written: str
    words: str

    @property
    def guide(self) -> bool:
        """Whether it is the third or the seventh, or stands for one."""
        return self.role in GUIDES

    @property
    def common(self) -> bool:
        """Whether the chord before has it too."""
        return self.step == 0


def landing(
    chord: NumberChord, key: Key, numbering: Numbering = COUNTED, before: LetterChord | None = None
) -> tuple[LandingNote, ...]:
    """Rank the notes to land on at a chord, best first.

    Parameters
    ----------
    chord : NumberChord
        Counted as ``numbering`` counts in ``key``.
    before : LetterChord, optional
        The chord before, in letters since the key may have changed.
    """
    one = numbering.one(key)
    left = () if before is None else chord_tones_of(to_number(before, one))
    tones = sorted(chord_tones_of(chord), key=_rank)
    return tuple(_landing(tone, left, key, numbering) for tone in tones)


def _rank(tone: ChordTone) -> float:
    return ALTERED_FIFTH if tone.altered else float(ORDER.index(tone.role))


def _landing(tone: ChordTone, left: tuple[ChordTone, ...], key: Key, numbering: Numbering) -> LandingNote:
    source, step = _nearest(tone, left)
    written = degree_text(tone.degree, key, numbering)
    words = f"{written}: {_name_words(tone)}"
    if source is not None and step is not None:
        words += f", {_step_words(step, degree_text(source, key, numbering))}"
    note = note_of(tone.degree, numbering.one(key))
    return LandingNote(note, tone.degree, tone.above, tone.name, tone.role, source, step, written, words)


def _nearest(tone: ChordTone, left: tuple[ChordTone, ...]) -> tuple[Degree | None, int | None]:
    """The tone left behind that lies nearest, a guide tone before others, from below before from above."""
    if not left:
        return None, None
    away = [(_semitones(old.degree, tone.degree), old) for old in left]
    step, old = min(away, key=lambda each: (abs(each[0]), each[1].role not in GUIDES, each[0] < 0))
    return old.degree, step


def _semitones(start: Degree, end: Degree) -> int:
    """The shorter way, up at a tritone."""
    up = (end.semitones - start.semitones) % OCTAVE
    return up if up <= TRITONE else up - OCTAVE


def _name_words(tone: ChordTone) -> str:
    if tone.role in ("root", "bass"):
        return f"the {tone.role}"
    return f"the chord's {tone.name}"


def _step_words(step: int, source: str) -> str:
    if step == 0:
        return "stays"
    size = STEPS.get(abs(step), f"{abs(step)} half steps")
    return f"{size} {'up' if step > 0 else 'down'} from {source}"
