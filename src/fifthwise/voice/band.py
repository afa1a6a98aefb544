"""What a key costs the band: open strings, the guitar's capo, the horns' written keys.

These are columns of their own. They never weigh against the singer; they settle ties alone.
Open strings are those of the violin family, C G D A E. All of it is common practice, without a source.
"""

from dataclasses import dataclass

from fifthwise.theory import Key, NoteName, in_fewest_accidentals

__all__ = [
    "CAPO_LIMIT",
    "HORNS",
    "OPEN_STRINGS",
    "SHAPES",
    "BandTerms",
    "HornKey",
    "band_terms",
    "strings_in_key",
]

OPEN_STRINGS = tuple(NoteName(place) for place in range(5))  # C G D A E
# Open shapes by whether the key's third is minor.
SHAPES = {
    False: tuple(NoteName(place) for place in (1, 0, 2, 3, 4)),  # G C D A E
    True: tuple(NoteName(place) for place in (3, 4, 2)),  # Am Em Dm
}
CAPO_LIMIT = 7
# Fifths from the sounding key up to the written one: a whole step, a sixth, a fifth.
HORNS = {"Bb": 2, "Eb": 3, "F": 1}


@dataclass(frozen=True, slots=True)
class HornKey:
    """A transposing instrument's written key and how many sharps or flats it has."""

    instrument: str
    key: Key
    accidentals: int


@dataclass(frozen=True, slots=True)
class BandTerms:
    """What a key gives the band.

    Attributes
    ----------
    open_strings : tuple of NoteName
        Those roots of 1, 4 and 5 that are open strings, in this order.
    capo : int or None
        The lowest fret, 0 to 7, that gives a guitar an open shape; ``None`` where none does.
    shape : str or None
        That shape, ``G`` or ``Am``.
    horns : tuple of HornKey
        In the order of ``HORNS``.
    """

    open_strings: tuple[NoteName, ...]
    capo: int | None
    shape: str | None
    horns: tuple[HornKey, ...]

    @property
    def tie_rank(self) -> tuple[int, int, int]:
        """Smaller is handier: more open strings, then a lower capo, then fewer accidentals for the horns."""
        capo = CAPO_LIMIT + 1 if self.capo is None else self.capo
        return -len(self.open_strings), capo, sum(horn.accidentals for horn in self.horns)


def band_terms(key: Key) -> BandTerms:
    """What a key gives the band."""
    roots = (NoteName(key.tonic.fifths + away) for away in (0, -1, 1))
    capo, shape = _capo(key)
    return BandTerms(tuple(root for root in roots if root in OPEN_STRINGS), capo, shape, _horns(key))


def strings_in_key(key: Key) -> tuple[tuple[NoteName, bool], ...]:
    """The open strings, low to high, and whether each is a note of the key's scale."""
    scale = {key.tonic.fifths + degree.fifths for degree in key.scale}
    return tuple((string, string.fifths in scale) for string in OPEN_STRINGS)


def _capo(key: Key) -> tuple[int | None, str | None]:
    small = any(degree.step == 3 and degree.alter < 0 for degree in key.scale)
    frets = ((key.tonic.pitch_class - shape.pitch_class) % 12 for shape in SHAPES[small])
    fret, shape = min(zip(frets, SHAPES[small], strict=True))
    return (fret, f"{shape}m" if small else str(shape)) if fret <= CAPO_LIMIT else (None, None)


def _horns(key: Key) -> tuple[HornKey, ...]:
    found = []
    for instrument, away in HORNS.items():
        moved = Key(NoteName(key.tonic.fifths + away), key.mode)
        written = in_fewest_accidentals(moved, sharps=key.signature > 0)
        found.append(HornKey(instrument, written, abs(written.signature)))
    return tuple(found)
