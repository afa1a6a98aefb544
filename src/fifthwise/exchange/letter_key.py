"""The key of a chart in letters that does not say it, found from its chords and told."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from fifthwise.exchange.letter_cells import Cell, SectionDraft
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import ChordFault, FoundKey, LastingChord, LetterChord, find_key, read_letter_chord

__all__ = ["key_of_sections", "tell_key"]

GOES_ON = ("/", "-")


def key_of_sections(sections: Sequence[SectionDraft]) -> FoundKey | None:
    """The key in which the chords of some sections stand; ``None`` where there are none."""
    return find_key([list(_chords(section)) for section in sections])


def _chords(section: SectionDraft) -> Iterator[LastingChord]:
    before: list[tuple[str, Fraction]] = []
    for cell in section.cells:
        if [piece.text for piece in cell.tokens] != ["%"]:
            before = list(_spans(cell))
        for name, length in before:
            chord = _letters(name)
            if chord is not None:
                yield LastingChord(chord, length)


def _letters(name: str) -> LetterChord | None:
    try:
        return read_letter_chord(name.split(".")[0])
    except ChordFault:  # no chord, or one that is told as a fault
        return None


def _spans(cell: Cell) -> Iterator[tuple[str, Fraction]]:
    """What stands in a bar, each with its share of the bar."""
    share = Fraction(1, max(1, len(cell.tokens)))
    last: tuple[str, Fraction] | None = None
    for piece in cell.tokens:
        if piece.text in GOES_ON:
            last = None if last is None else (last[0], last[1] + share)
            continue
        if last is not None:
            yield last
        *earlier, name = piece.text.strip("()").split() or ["NC"]
        for each in earlier:
            yield each, share / (len(earlier) + 1)
        last = (name, share / (len(earlier) + 1))
    if last is not None:
        yield last


def tell_key(found: FoundKey, sections: Sequence[SectionDraft], source: Source) -> None:
    """Say which key was found, how likely it is, which comes next, and where the song moves."""
    first, second = found.first.short, found.runner_up.short
    start = Piece("", 1, 1, 1)
    if found.is_sure:
        what = f"the key is not said; by its chords it is {first} ({found.sure:.0%}), next comes {second}"
        source.tell(start, what, f"Write 'Key: {second}' at the top if it is that one")
    else:
        what = f"the key is not said, and the chords leave it open: {first} is taken ({found.sure:.0%}), "
        source.tell(
            start, f"{what}next comes {second}", f"Write 'Key: {second}' at the top if it is that one"
        )
    before = found.first
    for section, key in zip(sections, found.by_section, strict=True):
        if key != before and section.rows:
            name = section.name.text if section.name else "start"
            at = section.name or section.cells[0].tokens[0]
            what = f"from '{name}' on the chords may stand in {key.short}"
            source.tell(at, what, f"Write 'Key: {key.short}' before it to count them from there")
            before = key
