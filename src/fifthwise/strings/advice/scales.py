"""Scales over a chord, each note counted from the key's 1 and from the chord's root.

A scale that contradicts the chord, having another note of a chord tone's number and not the tone itself, is
left out, but for the blues of the home. With care, passed through and not held, go notes that are no chord
tones and lie a half step above a major third (the 4 over a major chord), above any tone of a minor or a
suspended chord, below what is suspended (the 3 over a sus); and the b3 and b5 of blues, which are slid
through. Common practice, no
source.
"""

from dataclasses import dataclass

from fifthwise.strings.advice.roles import COUNTED, ChordTone, chord_tones_of, degree_text
from fifthwise.strings.advice.scale_table import BY_KIND, BY_PLACE, HOME_BLUES, SCALES, Kind, Offer, Scale
from fifthwise.theory import Degree, Key, NoteName, NumberChord, Numbering, Quality, note_of

__all__ = ["MOST_SCALES", "ScaleAdvice", "ScaleNote", "chord_kind", "scales"]

MOST_SCALES, ENOUGH = 4, 2
OCTAVE = 12
MAJOR_THIRD, FLAT_FIFTH, FIFTH, FLAT_SEVENTH = 4, 6, 7, 10
# Above a dominant's root: b9, #9, b5 or #11, #5 or b13.
BENT = frozenset({1, 3, 6, 8})
BLUE = ("b3", "b5")


@dataclass(frozen=True, slots=True)
class ScaleNote:
    """A note of a scale over a chord.

    Attributes
    ----------
    degree, above : Degree
        Counted from the key's 1; counted from the chord's root.
    in_chord : bool
        Whether the chord has it.
    care : bool
        Whether it is passed through rather than held.
    """

    note: NoteName
    degree: Degree
    above: Degree
    in_chord: bool
    care: bool


@dataclass(frozen=True, slots=True)
class ScaleAdvice:
    """A scale that goes over a chord.

    Attributes
    ----------
    name : str
        ``mixolydian``, ``major pentatonic``.
    start : NoteName
        Its first note.
    from_home : bool
        Whether it begins on the song's home and not on the chord's root.
    notes : tuple of ScaleNote
        From its first note up.
    words : str
        ``D mixolydian. Pass through 1 (the 4 of D).``
    """

    name: str
    start: NoteName
    from_home: bool
    notes: tuple[ScaleNote, ...]
    words: str


def scales(chord: NumberChord, key: Key, numbering: Numbering = COUNTED) -> tuple[ScaleAdvice, ...]:
    """Tell the scales that go over a chord, best first; at least the chord's own tones.

    Parameters
    ----------
    chord : NumberChord
        Counted as ``numbering`` counts in ``key``.
    """
    over = _Over(chord, key, numbering)
    found = _fitting(over, BY_PLACE.get((over.kind, over.place), ()))
    if len(found) < ENOUGH:
        found = _fitting(over, BY_KIND[over.kind], found)
    return tuple(found.values())[:MOST_SCALES] or (_own_tones(over),)


@dataclass(frozen=True, slots=True)
class _Over:
    """A chord in its key."""

    chord: NumberChord
    key: Key
    numbering: Numbering

    @property
    def kind(self) -> Kind:
        return chord_kind(self.chord.quality)

    @property
    def place(self) -> str:
        """The root counted from the major key with the same signature."""
        return str(Degree(self.chord.root.fifths + self.one.fifths - self.key.signature))

    @property
    def one(self) -> NoteName:
        return self.numbering.one(self.key)

    @property
    def sounds(self) -> frozenset[int]:
        return frozenset(tone.degree.semitones for tone in chord_tones_of(self.chord))

    def text(self, degree: Degree) -> str:
        return degree_text(degree, self.key, self.numbering)


def chord_kind(quality: Quality) -> Kind:
    """What a quality asks of a scale."""
    sounds = {tone.semitones % OCTAVE for tone in quality.tones}
    if not quality.has_third:
        return "sus" if quality.base else "open"
    if MAJOR_THIRD not in sounds:
        return _minor_kind(sounds)
    if FLAT_SEVENTH in sounds:
        return "altered" if sounds & BENT else "dominant"
    return "augmented" if quality.triad == "+" else "major"


def _minor_kind(sounds: set[int]) -> Kind:
    if FLAT_FIFTH not in sounds or FIFTH in sounds:
        return "minor"
    return "half-diminished" if FLAT_SEVENTH in sounds else "diminished"


def _fitting(
    over: _Over, offers: tuple[Offer, ...], found: dict[frozenset[int], ScaleAdvice] | None = None
) -> dict[frozenset[int], ScaleAdvice]:
    """What is found and what of the offers goes over the chord, each set of notes once."""
    fitting = dict(found or {})
    tones = chord_tones_of(over.chord)
    for offer in offers:
        scale = _scale_of(offer, over.key)
        start = over.chord.root if offer.start == "root" else over.numbering.home(over.key)
        degrees = tuple(Degree(start.fifths + degree.fifths) for degree in scale.degrees)
        if offer == HOME_BLUES or not _contradicts(degrees, tones):
            sounds = frozenset(degree.semitones for degree in degrees)
            fitting.setdefault(sounds, _advice(scale, offer, degrees, over))
    return fitting


def _scale_of(offer: Offer, key: Key) -> Scale:
    if offer.scale in SCALES:
        return SCALES[offer.scale]
    minor = any(str(degree) == "b3" for degree in key.scale)
    return SCALES[f"{'minor' if minor else 'major'} {offer.scale}"]


def _contradicts(degrees: tuple[Degree, ...], tones: tuple[ChordTone, ...]) -> bool:
    sounds = {degree.semitones for degree in degrees}
    numbers = {degree.step for degree in degrees}
    return any(tone.degree.semitones not in sounds and tone.degree.step in numbers for tone in tones)


def _advice(scale: Scale, offer: Offer, degrees: tuple[Degree, ...], over: _Over) -> ScaleAdvice:
    notes = tuple(
        _note(degree, over, blue=str(own) in BLUE if offer.blue else None)
        for degree, own in zip(degrees, scale.degrees, strict=True)
    )
    start = note_of(degrees[0], over.one)
    words = " ".join((f"{start} {scale.name}.", *_care_words(notes, over, blue=offer.blue)))
    return ScaleAdvice(scale.name, start, offer.start == "home", notes, words)


def _own_tones(over: _Over) -> ScaleAdvice:
    by_sound = {tone.degree.semitones: tone.degree for tone in reversed(chord_tones_of(over.chord))}
    notes = tuple(_note(degree, over) for degree in reversed(by_sound.values()))
    start = note_of(over.chord.root, over.one)
    return ScaleAdvice("chord tones", start, False, notes, "The chord's own tones.")


def _note(degree: Degree, over: _Over, blue: bool | None = None) -> ScaleNote:
    in_chord = degree.semitones in over.sounds
    care = not in_chord and (_rubs(degree, over) if blue is None else blue)
    above = Degree(degree.fifths - over.chord.root.fifths)
    return ScaleNote(note_of(degree, over.one), degree, above, in_chord, care)


def _rubs(degree: Degree, over: _Over) -> bool:
    """Whether a note lies a half step from a tone that it would hide."""
    tones = chord_tones_of(over.chord)
    thirds = {tone.degree.semitones for tone in tones if tone.role == "third"}
    whole = _is_minor(over.kind) or not over.chord.quality.has_third
    below = over.kind == "sus" and (degree.semitones + 1) % OCTAVE in thirds
    return below or (degree.semitones - 1) % OCTAVE in (over.sounds if whole else thirds)


def _is_minor(kind: Kind) -> bool:
    return kind in ("minor", "half-diminished", "diminished")


def _care_words(notes: tuple[ScaleNote, ...], over: _Over, *, blue: bool) -> tuple[str, ...]:
    careful = [note for note in notes if note.care]
    if not careful:
        return ()
    if blue:
        return (f"Slide through {_listed([over.text(note.degree) for note in careful])}.",)
    return (f"Pass through {_listed([_place_words(note, over) for note in careful])}.",)


def _place_words(note: ScaleNote, over: _Over) -> str:
    if note.degree == note.above:
        return over.text(note.degree)
    return f"{over.text(note.degree)} (the {note.above} of {note_of(over.chord.root, over.one)})"


def _listed(items: list[str]) -> str:
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} and {items[-1]}"
