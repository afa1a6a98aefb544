"""Made-up values for the laws: one function a value type, each named after its type in the plural."""

import dataclasses
import functools
import itertools
from fractions import Fraction

from hypothesis import strategies as st

from fifthwise.evening import SHOWS, Evening, Player, SetSong, part_names, part_of
from fifthwise.strings import LEVELS, Place, instrument_names, instrument_of, midi_at, tuned
from fifthwise.strings.fingering import COSTS, Costs, Line, LineNote
from fifthwise.theory import (
    MINOR_WAYS,
    MODES,
    PLAIN_WAYS,
    ChordFault,
    Degree,
    Interval,
    Key,
    LetterChord,
    Metre,
    NoteName,
    NumberChord,
    Numbering,
    Quality,
    SpelledPitch,
    make_quality,
)
from fifthwise.theory.quality import BASES, ORDER, TRIADS
from fifthwise.voice import Range, Singer

# Places on the line of fifths whose names have at most two accidentals.
LOWEST_PLACE, HIGHEST_PLACE = -15, 19


def note_names():
    """Notes with up to two accidentals."""
    return st.integers(LOWEST_PLACE, HIGHEST_PLACE).map(NoteName)


def degrees():
    """Degrees with up to two accidentals."""
    return st.integers(LOWEST_PLACE, HIGHEST_PLACE).map(Degree)


def pitches():
    """Spelled pitches in the octaves that can be written."""
    return st.builds(SpelledPitch, st.integers(LOWEST_PLACE, HIGHEST_PLACE), st.integers(-1, 9))


def intervals():
    """Intervals up and down, simple and strange."""
    return st.builds(Interval, st.integers(-12, 12), st.integers(-8, 8))


def keys():
    """Every key with at most seven sharps or flats, in every mode."""
    return st.builds(
        lambda signature, mode: Key(NoteName(signature - MODES[mode]), mode),
        st.integers(-7, 7),
        st.sampled_from(sorted(MODES)),
    )


def numberings():
    """Both settings of how a song counts."""
    return st.builds(Numbering, st.sampled_from(MINOR_WAYS), st.sampled_from(PLAIN_WAYS))


def metres():
    """Metres that charts use, uneven ones with their groups."""
    even = st.builds(Metre, st.integers(1, 12), st.sampled_from((2, 4)))
    compound = st.builds(Metre, st.sampled_from((3, 6, 9, 12)), st.just(8))
    groups = st.lists(st.integers(1, 4), min_size=1, max_size=6).map(tuple)
    return even | compound | groups.map(lambda g: Metre(sum(g), 8, g))


def lengths():
    """Lengths in quarters."""
    return st.fractions(Fraction(1, 16), 16, max_denominator=48)


@functools.cache
def every_quality(changes=1):
    """Every quality with up to so many changes, in its settled form.

    Parameters
    ----------
    changes : int
        The most changes; at 1 there are about 500 qualities, at 2 about 2,500.
    """
    parts = itertools.chain.from_iterable(itertools.combinations(ORDER, n) for n in range(changes + 1))
    found = (_quality_or_none(*p) for p in itertools.product(TRIADS, BASES, parts))
    return tuple(dict.fromkeys(q for q in found if q is not None))


def _quality_or_none(triad: str, base: str, changes: tuple[str, ...]) -> Quality | None:
    try:
        return make_quality(triad, base, changes)
    except ChordFault:
        return None


def qualities():
    """Qualities of every triad and base, with up to four changes that go together."""
    changes = st.lists(st.sampled_from(ORDER), max_size=4, unique=True).map(tuple)
    made = st.builds(
        _quality_or_none, st.sampled_from(sorted(TRIADS)), st.sampled_from(sorted(BASES)), changes
    )
    return st.sampled_from(every_quality(0)) | made.filter(lambda quality: quality is not None)


def number_chords():
    """Number chords with and without a bass."""
    return st.builds(NumberChord, degrees(), qualities(), st.none() | degrees())


def letter_chords():
    """Letter chords with and without a bass."""
    return st.builds(LetterChord, note_names(), qualities(), st.none() | note_names())


def people_names():
    """Names as people type them: other scripts, signs that a format knows, and what looks like a value."""
    odd = [
        "yes", "No", "1e3", "~", "null", "2026-12-05", "0x1F", "Maren: alto", "#1", "- x", "'", '"', "{a}",
        "a #b", "שירה", "\u200fنورا", "🎻 Ida", "Ann\u2028e", "x" * 1100, "<b>", "? y", "&a", "*a", "!t", "%",
    ]  # fmt: skip
    return (st.sampled_from(odd) | st.text(min_size=1, max_size=20)).map(str.strip).filter(bool)


def _ranges(pitches):
    """Four pitches from low to high, as the usable range about the comfort."""
    low, from_, to, high = sorted(pitches, key=lambda pitch: pitch.midi)
    return Range(low, high), Range(from_, to)


def singers(names=None):
    """Singers with every kind of range and change-over."""
    turns = st.lists(pitches(), max_size=2).map(lambda found: tuple(sorted(found, key=lambda p: p.midi)))
    return st.builds(
        lambda name, ranges, turned: Singer(name, *ranges, turned),
        people_names() if names is None else names,
        st.lists(pitches(), min_size=4, max_size=4).map(_ranges),
        turns,
    )


def players(names=None):
    """Players of every instrument; only who may take a capo has one."""
    return st.builds(
        lambda name, part, level, show, capo: Player(name, part, level, show, capo and part.capo),
        people_names() if names is None else names,
        st.sampled_from(part_names()).map(part_of),
        st.none() | st.sampled_from(LEVELS),
        st.sampled_from(SHOWS),
        st.booleans(),
    )


@st.composite
def evenings(draw):
    """Evenings whose songs are sung by their singers."""
    sung_by = draw(st.lists(singers(), max_size=4, unique_by=lambda singer: singer.name))
    played_by = draw(st.lists(players(), max_size=4, unique_by=lambda player: player.name))
    who = st.sampled_from([None, *(singer.name for singer in sung_by)])
    songs = st.builds(
        SetSong, people_names(), who, st.none() | keys().map(str), st.none() | people_names(), st.booleans()
    )
    date = draw(st.none() | st.dates().map(str) | st.sampled_from(["first Sunday: noon", "5 May"]))
    running = tuple(draw(st.lists(songs, max_size=5)))
    paper = draw(st.sampled_from(["a4", "letter"]))
    return Evening(draw(people_names()), date, tuple(sung_by), tuple(played_by), running, paper)


def instruments():
    """Every instrument, and some in tunings of fiddlers."""
    known = st.sampled_from(instrument_names()).map(instrument_of)
    retuned = st.sampled_from(("AEAE", "GDGD", "AEAC#")).map(
        lambda text: tuned(instrument_of("violin"), text)
    )
    return known | retuned


def costs():
    """Tables of weights, the one in use among them; a substitution is never barred."""
    weight = st.integers(0, 12).map(lambda quarters: quarters / 4)
    return st.just(COSTS) | st.builds(Costs, **{field.name: weight for field in dataclasses.fields(Costs)})


@st.composite
def lines(draw, instrument, highest=9, most=4, pinned=True):
    """Short lines of an instrument: single notes and double stops, slurs, rests, long and short notes, pins.

    No stop lies above ``highest``; most lines can be played, but not all.
    """
    notes, at = [], Fraction(0)
    for _ in range(draw(st.integers(2, most))):
        places = draw(_line_places(instrument, highest))
        pitches = tuple(draw(_spelled(midi_at(instrument, place))) for place in places)
        length = draw(st.sampled_from((Fraction(1, 4), Fraction(1), Fraction(2))))
        pins = draw(_pins(instrument, places)) if pinned else ()
        notes.append(LineNote(pitches, at, length, *(draw(st.booleans()) for _ in range(3)), pins))
        at += length + draw(st.sampled_from((Fraction(0), Fraction(0), Fraction(1, 2))))
    return Line(tuple(notes))


@st.composite
def _line_places(draw, instrument, highest):
    """One place, or two on strings side by side, the lower pitch first."""
    place = Place(draw(st.integers(0, len(instrument.strings) - 1)), draw(st.integers(0, highest)))
    if place.string == 0 or draw(st.integers(0, 3)):
        return (place,)
    apart = draw(st.integers(-8, 5))
    other = Place(place.string - 1, min(highest, max(0, place.stop + apart)))
    return tuple(sorted((place, other), key=lambda each: midi_at(instrument, each)))


def _spelled(midi):
    """Spellings of a sound."""
    octave = midi // 12 - 1
    spellings = [SpelledPitch(fifths, octave + away) for fifths in range(-5, 9) for away in (-1, 0, 1)]
    return st.sampled_from([pitch for pitch in spellings if pitch.midi == midi])


@st.composite
def _pins(draw, instrument, places):
    """No pins, or one a place: free, a finger, its string, or both."""
    if draw(st.integers(0, 2)):
        return ()
    names = [instrument.strings[place.string] for place in places]
    fingers = ["0" if place.stop == 0 else draw(st.sampled_from("1234")) for place in places]
    texts = [
        (".", finger, str(own.name), f"{own}{finger}") for own, finger in zip(names, fingers, strict=True)
    ]
    return tuple(draw(st.sampled_from((".", ".", *each))) for each in texts)
