"""Charts written as number sheets in other conventions, as people type them, for tests and the bench."""

from dataclasses import replace

from fifthwise.exchange.numbers import Convention
from fifthwise.theory import Degree, NumberChord, quality_text

# Each hand: the convention, and how its bars, split bars and minors are typed.
HANDS = {
    "strokes": (Convention("strokes"), " | ", "{}", "-"),
    "strokes, m": (Convention("strokes"), " | ", "{}", "m"),
    "spaces, [ ]": (Convention("spaces"), "  ", "[{}]", "-"),
    "spaces, ( )": (Convention("spaces"), " ", "({})", "m"),
    "spaces, _": (Convention("spaces"), "  ", "_", "-"),
    "spaces, dots": (Convention("spaces"), "  ", "dots", "-"),
    "spaces, ticks": (Convention("spaces"), "  ", "ticks", "-"),
    "spaces, comma": (Convention("spaces"), "  ", ",", "-"),
    "dashes": (Convention("dashes"), " - ", "{}", "-"),
    "commas": (Convention("commas"), ", ", "{}", "m"),
    "strokes, bass from chord": (Convention("strokes", slash="chord"), " | ", "{}", "-"),
    "spaces, bass from chord": (Convention("spaces", slash="chord"), "  ", "[{}]", "-"),
    "spaces, slash splits": (Convention("spaces", slash="split"), "  ", "/", "-"),
    "strokes, plain is the scale's": (Convention("strokes", plain="scale"), " | ", "{}", "m"),
    "spaces, plain is the scale's": (Convention("spaces", plain="scale"), "  ", "[{}]", "-"),
    "hyphens, plain is the scale's": (Convention("hyphens", plain="scale"), "-", "_", "m"),
    "strokes, 5^7": (Convention("strokes", hat="seven"), " | ", "{}", "-"),
    "strokes, 1^7": (Convention("strokes", hat="major-seven"), " | ", "{}", "-"),
}
SMALL = {"2": "-", "3": "-", "6": "-", "7": "o"}  # the triads that the scale has there


def write_number_sheet(chart, hand):
    """Write a chart's sections as a sheet in one hand; ``None`` where it cannot hold a bar."""
    convention, bar_sign, split, minor = HANDS[hand]
    hat = convention.hat if "^" in hand else None
    lines = [chart.title, f"Key: {chart.key.tonic}", f"Time: {chart.metre}"]
    for section in chart.sections:
        lines += ["", f"[{section.name or 'section'}]"]
        for line in section.lines:
            bars = [_bar(bar, convention, split, minor, hat) for bar in line.bars]
            lines.append(bar_sign.join(bars))
    return "\n".join(lines)


def _bar(bar, convention, split, minor, hat):
    words = [
        "N.C." if slot.kind != "chord" else typed(slot.chord, convention, minor, hat) for slot in bar.slots
    ]
    beats = [slot.length / bar.metre.beat for slot in bar.slots]
    if len(words) == 1:
        return words[0]
    if split in ("dots", "ticks"):
        return "".join(
            word + ".'"[split == "ticks"] * int(n) + " " * (split == "dots")
            for word, n in zip(words, beats, strict=True)
        ).strip()
    if split in ("_", ",", "/"):
        return split.join(words)
    if len(set(beats)) > 1:
        words = [" ".join((word, *["/"] * (int(n) - 1))) for word, n in zip(words, beats, strict=True)]
    return split.format(" ".join(words))


def typed(chord, convention, minor, hat=None):
    """One chord as the convention types it."""
    quality, degree = chord.quality, str(chord.root)
    text = quality_text(quality)
    small = SMALL.get(degree) if convention.plain == "scale" else None
    if quality.triad == "-":
        text = text[1:] if small == "-" and not text.startswith("-maj") else minor + text[1:]
    elif small and quality.triad == "" and quality.has_third:
        text = _major(text)
    if hat == "seven" and quality.base == "7":
        text = text.replace("7", "^7", 1)
    elif hat == "major-seven":
        text = text.replace("maj7", "^7", 1)
    bass = ""
    if chord.bass is not None:
        low = Degree(chord.bass.fifths - chord.root.fifths) if convention.slash == "chord" else chord.bass
        bass = f"/{low}"
    return f"{degree}{text}{bass}"


def _major(text):
    """A major chord where a plain number would be a small one."""
    if text.startswith(("7", "9", "11", "13")):
        return f"dom{text}"
    return text if text.startswith("maj") else f"maj{text}"


def simple(chart, hand):
    """What of a chart a hand can say: no marks, repeats, other metres; no bass where the slash splits."""
    convention = HANDS[hand][0]
    sections = []
    for section in chart.sections:
        lines = []
        for line in section.lines:
            bars = [_plain_bar(bar, convention) for bar in line.bars if fits(bar, chart.metre)]
            lines += [replace(line, bars=tuple(bars), words=())] if bars else []
        sections += (
            [replace(section, lines=tuple(lines), times=1, cues=(), name=section.name or "section")]
            if lines
            else []
        )
    return replace(chart, sections=tuple(sections), form=())


def fits(bar, metre):
    """Whether a bar is of the song's metre, with whole beats, in the song's key."""
    shares = {slot.length for slot in bar.slots}
    return (
        bar.metre == metre
        and (len(shares) == 1)
        and all((x / metre.beat).denominator == 1 for x in shares)
        and all(slot.kind in ("chord", "nc") for slot in bar.slots)
    )


def _plain_bar(bar, convention):
    slots = bar.slots
    if convention.slash == "split":
        slots = tuple(replace(s, chord=s.chord and NumberChord(s.chord.root, s.chord.quality)) for s in slots)
    return replace(
        bar,
        slots=slots,
        marks=(),
        cues=(),
        repeat_start=False,
        repeat_end=None,
        endings=(),
        copied=False,
        metre_once=False,
    )


def sounds(chart):
    """The bars of a chart in text order: each chord and its length."""
    return [
        [(s.kind, s.chord, s.length) for s in bar.slots] for section in chart.sections for bar in section.bars
    ]
