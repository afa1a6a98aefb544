"""Short chart texts for the tests, and what reading them tells."""

from fractions import Fraction

from fifthwise.chart import parse, read_chart, unfold
from fifthwise.theory import write_number

# Lines that ``song`` puts before its body: the two rules, title and key.
HEAD_LINES = 4


def song(body, **fields):
    """A chart text with a short head; ``fields`` add to it, after title and key."""
    named = {"title": "Slipway", "key": "C", **fields}
    head = "".join(f"{name}: {text}\n" for name, text in named.items())
    return f"---\n{head}---\n{body}"


def chart_of(body, **fields):
    """A chart that must be sound."""
    return parse(song(body, **fields))


def bars_of(body, **fields):
    """All bars of a chart in text order."""
    return [bar for section in chart_of(body, **fields).sections for bar in section.bars]


def faults_of(body, **fields):
    """The faults of a chart, each as (line of the body, column, what)."""
    found = read_chart(song(body, **fields)).faults
    return [(f.line - HEAD_LINES - len(fields.keys() - {"title", "key"}), f.column, f.what) for f in found]


def only_fault(body, **fields):
    """The one fault of a chart."""
    (fault,) = read_chart(song(body, **fields)).faults
    return fault


def slots_of(body, **fields):
    """Each bar's slots as (text, quarters)."""
    return [[(slot_text(slot), slot.length) for slot in bar.slots] for bar in bars_of(body, **fields)]


def slot_text(slot):
    """A slot as explicit text."""
    name = {"rest": "0", "nc": "NC", "hold": "-"}.get(slot.kind) or write_number(slot.chord)
    return "".join((name, *(f".{mark}" for mark in slot.marks)))


def chords_of(body, **fields):
    """The chords of a chart, as numbers, in text order."""
    return [text for bar in slots_of(body, **fields) for text, _ in bar]


def played(body, **fields):
    """The chords in playing order, as text."""
    timeline = unfold(chart_of(body, **fields))
    return " ".join(entry_text(entry) for entry in timeline.entries)


def entry_text(entry):
    """What an entry plays, as explicit text."""
    return {"rest": "0", "nc": "NC"}.get(entry.kind) or write_number(entry.chord)


def entries_of(body, **fields):
    """The timeline's entries as (text, place, length)."""
    return [(entry_text(e), e.written_at, e.length) for e in unfold(chart_of(body, **fields)).entries]


def q(text):
    """A length in quarters."""
    return Fraction(text)
