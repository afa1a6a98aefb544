"""Charts in letters for tests: made up, and read with what is always the same."""

from hypothesis import strategies as st

from fifthwise.chart import write_chart
from fifthwise.exchange import read_letter_chart
from fifthwise.theory import Numbering, read_key

FRAGMENTS = (
    *("| |", "|", "|", "|:", ":|", "||", "|]", ":||:", "𝄆", "G", "C", "D/F#", "Em7", "E♭Δ7", "C°7", "G///"),
    *("/B", "(C D)", "%", "/", ".", "//", "-", "N.C.", "x2", "(x3)", "x0", "x99", "[1.]", "[2.]", "1."),
    *("(2/4)", "3/4", "4/4", "7/8", "(7/8 2+2+3)", "[Verse]", "Chorus", "Verse 2:", "[Chorus]", "A:"),
    *("# Bridge", "--- Outro ---", "CHORUS x2", "*Solo*", "Key: A", "Key of D", "Tempo: 99", "Time: 6/8"),
    *("Feel: swing", "title: x", "form: a", "capo 2", "by me", "la", "the road", "words: la | la", '"hey"'),
    *("(soft)", "//", ";", "D.S. al Coda", "Fine", "To Coda", "Segno", "[key A]", "[tempo 120]"),
    *("[feel swing]", "[pickup 1]", "H", "am", "4", "♭", "<!-- x -->", "---", "[", "]", "(", ")", '"'),
    *("|2.", "[1-3]", "\n", "\n", "\n", "\n", "\n\n"),
)  # fmt: skip


def sheets():
    """Texts that look like charts in letters, sound and not."""
    return st.lists(st.sampled_from(FRAGMENTS) | st.text(max_size=4), max_size=40).map(" ".join)


def read(sheet, key="G", minor="from-six"):
    """Read a sheet under the name song.txt."""
    named = None if key is None else read_key(key)
    return read_letter_chart(sheet, "song.txt", named, numbering=Numbering(minor))


def written(sheet, key="G", minor="from-six"):
    """Read a sound sheet and write its chart."""
    reading = read(sheet, key, minor)
    assert reading.faults == ()
    return write_chart(reading.chart)


def numbers(sheet, key="G"):
    """The chart's lines after its head, blanks settled and empty lines left out."""
    body = written(f"Title\n{sheet}", key).split("---\n")[2]
    return [" ".join(line.split()) for line in body.split("\n") if line]


def told(faults):
    """Each fault's place, what and fix."""
    return [f"{fault.line}:{fault.column}: {fault.what}. {fault.fix}" for fault in faults]
