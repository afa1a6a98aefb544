"""The head of a page in words: key, tempo, how its letters read, and what a stranger could misread."""

from collections.abc import Iterator
from fractions import Fraction

from fifthwise.chart import DEFAULT_TEMPO, Chart
from fifthwise.page.layout_reader import Reader
from fifthwise.page.layout_scopes import tempo_text
from fifthwise.page.text_signs import printed, printed_key

__all__ = ["head_notes", "head_reads", "head_tempo", "tempo_note"]

TEMPO_NOTES = {Fraction(1): "quarter", Fraction(3, 2): "dotted quarter", Fraction(2): "half"}


def head_tempo(chart: Chart) -> str:
    """The tempo in felt beats a minute; ``about 100`` where the song does not say."""
    return f"about {tempo_text(DEFAULT_TEMPO)}" if chart.tempo is None else tempo_text(chart.tempo)


def tempo_note(chart: Chart) -> str:
    """The note that the tempo counts."""
    return TEMPO_NOTES[chart.metre.tempo_unit]


def head_reads(chart: Chart, reader: Reader) -> tuple[str, ...]:
    """How this page's letters differ from what sounds."""
    part, sounds, reads = reader.view.part, printed_key(chart.key), printed_key(reader.key(chart.key))
    if part.capo:
        return (f"Capo {part.capo} · shapes in {reads}, sounds in {sounds}",)
    return (f"written in {reads}, sounds in {sounds}",) if reader.moves else ()


def head_notes(chart: Chart, reader: Reader) -> tuple[str, ...]:
    """What a stranger could misread in the numbers, of chords or of the tune."""
    tune = reader.view.tune and any(bar.tune for section in chart.sections for bar in section.bars)
    if reader.view.show == "letters" and not tune:
        return ()
    return tuple(_notes(chart, reader))


def _notes(chart: Chart, reader: Reader) -> Iterator[str]:
    key, numbering = reader.key(chart.key), chart.numbering
    one, home = printed(numbering.one(key)), printed_key(key)
    six, i = ("vi", "i") if reader.view.show == "roman" else ("6–", "1–")
    if not key.is_minor:
        if key.mode not in ("major", "ionian"):
            yield f"{home}: 1 is {one}, and every number counts from it as in a major scale"
    elif numbering.minor == "from-six":
        yield f"Home is {six}: numbers count from {one} major, the song rests on {printed(key.tonic)}m"
    elif numbering.minor == "from-one":
        yield f"Home is {i}: 1 is {one}; ♭3, ♭6 and ♭7 are the minor scale’s own"
    else:
        yield f"Home is {i}: 1 is {one}; 3, 6 and 7 are the minor scale’s own (♭3, ♭6, ♭7)"
