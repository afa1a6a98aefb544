"""Charts written as text, in one settled layout with their bars aligned."""

from dataclasses import dataclass
from fractions import Fraction

from fifthwise.chart.beats import Timed, beat_texts, token_lengths
from fifthwise.chart.model import Bar, Chart, Cue, FormItem, KeyShift, Line, ScopedMark, Section, Slot
from fifthwise.chart.scope import opening_scope, section_scopes
from fifthwise.chart.shares import Misfit, pickup_lengths, shared_lengths
from fifthwise.chart.tune_write import finger_line, has_fingers, tune_line, tune_pitch_text
from fifthwise.theory import Key, Numbering, write_number

__all__ = ["write_chart"]


def write_chart(chart: Chart) -> str:
    """Write a sound chart; reading the text again gives the same chart."""
    head = opening_scope(chart)
    parts = [_head(chart)]
    for section in chart.sections:
        keys = tuple(scope.key for scope in section_scopes(section, head, chart.key))
        parts.append(_section(section, keys, chart))
    return "\n".join(parts)


def _head(chart: Chart) -> str:
    lowers = chart.numbering.lowers(chart.key)
    fields = {
        "title": chart.title,
        "by": chart.by,
        "key": str(chart.key),
        "meter": str(chart.metre) if str(chart.metre) != "4/4" else None,
        "tempo": str(chart.tempo) if chart.tempo is not None else None,
        "feel": chart.feel,
        "octave": None if chart.octave is None else str(chart.octave),
        "lowest": tune_pitch_text(chart.lowest, lowers=lowers) if chart.lowest else None,
        "highest": tune_pitch_text(chart.highest, lowers=lowers) if chart.highest else None,
        "minor": chart.minor if chart.minor != "from-six" else None,
        "plain": chart.plain if chart.plain != "explicit" else None,
        "form": ", ".join(_form_item(item, chart) for item in chart.form) or None,
        "tags": chart.tags,
    }
    lines = [f"{name}: {_quoted(text)}" for name, text in fields.items() if text is not None]
    return "\n".join(("---", *lines, "---", ""))


def _quoted(text: str) -> str:
    return f'"{text}"' if len(text) > 1 and text[0] == text[-1] == '"' else text


def _form_item(item: FormItem, chart: Chart) -> str:
    if item.shift is not None:
        return f"[key {_shift(item.shift, chart.key)}]"
    assert item.section is not None
    verse = f" {item.verse}" if item.verse else ""
    times = f" x{item.times}" if item.times > 1 else ""
    return f"{chart.sections[item.section].name}{verse}{times}"


def _shift(shift: KeyShift, head_key: Key) -> str:
    if shift.key is None:
        return f"{shift.semitones:+d}"
    if shift.key.mode == head_key.mode:
        return str(shift.key.tonic)
    return f"{shift.key.tonic} {shift.key.mode}"


def _section(section: Section, keys: tuple[Key, ...], chart: Chart) -> str:
    lines = []
    if section.name is not None:
        times = f" x{section.times}" if section.times > 1 else ""
        cues = "".join(f" {_cue(cue)}" for cue in section.cues)
        lines.append(f"# {section.name}{times}{cues}")
    at, rows = 0, []
    for line in section.lines:
        here = keys[at : at + len(line.bars)]
        rows.append([_cell(bar, key, chart) for bar, key in zip(line.bars, here, strict=True)])
        at += len(line.bars)
    at = 0
    for line, text in zip(section.lines, _aligned(rows), strict=True):
        here = keys[at : at + len(line.bars)]
        at += len(line.bars)
        lines += [text, *_under(line, here, chart)]
    return "\n".join((*lines, ""))


def _under(line: Line, keys: tuple[Key, ...], chart: Chart) -> list[str]:
    lowers = [chart.numbering.lowers(key) for key in keys]
    lines = []
    if all(bar.tune is not None for bar in line.bars):
        lines.append(tune_line(line.bars, lowers))
        if any(has_fingers(bar) for bar in line.bars):
            lines.append(finger_line(line.bars, lowers))
    return lines + [f"words: {words}".rstrip() for words in line.words]


@dataclass(frozen=True, slots=True)
class _Cell:
    """A bar's text, and the bar lines before and after it."""

    text: str
    opens: str
    closes: str


def _aligned(rows: list[list[_Cell]]) -> list[str]:
    """Join each row's cells, padded so that bar lines stand under one another."""
    columns = max((len(row) for row in rows), default=0)
    widths = [max((len(r[j].text) for r in rows if j < len(r) - 1), default=0) for j in range(columns)]
    lefts = [max((len(_left(r, j)) for r in rows if j < len(r)), default=0) for j in range(columns)]
    return [_row(row, widths, lefts) for row in rows]


def _left(row: list[_Cell], j: int) -> str:
    """The bar line before a cell: that which closes the cell before, and that which opens this one."""
    closes = row[j - 1].closes if j else ""
    if not j:
        return f"{row[j].opens} " if row[j].opens else ""
    sign = f"{closes} {row[j].opens}" if closes and row[j].opens else closes or row[j].opens or "|"
    return f" {sign} "


def _row(row: list[_Cell], widths: list[int], lefts: list[int]) -> str:
    text = ""
    for j, cell in enumerate(row):
        text += _left(row, j).ljust(lefts[j]) + (
            cell.text.ljust(widths[j]) if j < len(row) - 1 else cell.text
        )
    return f"{text} {row[-1].closes}".rstrip()


def _cell(bar: Bar, key: Key, chart: Chart) -> _Cell:
    before = [*(f"[{mark}]" for mark in _marks_before(bar, chart))]
    after = [f"[{sign}]" for sign in _signs_after(bar)]
    closes = ""
    if bar.repeat_end:
        closes = ":|"
        if bar.repeat_end.vamp is not None:
            closes += f' vamp "{bar.repeat_end.vamp}"'
        elif bar.repeat_end.times != 2:
            closes += f" x{bar.repeat_end.times}"
        if bar.double_bar:
            closes = closes.replace(":|", ":||", 1)
    elif bar.double_bar:
        closes = "||"
    return _Cell(
        " ".join((*before, *_with_cues(bar, key, chart), *after)), "|:" if bar.repeat_start else "", closes
    )


def _marks_before(bar: Bar, chart: Chart) -> list[str]:
    marks = []
    if bar.endings:
        marks.append(" ".join(f"{n}." for n in bar.endings))
    marks += ["segno"] * bar.segno + ["coda"] * bar.coda
    if bar.pickup is not None:
        marks.append(f"pickup {bar.pickup}")
    marks += [_scoped(mark, chart) for mark in bar.marks]
    if bar.metre_once and not bar.copied:
        marks.append(str(bar.metre))
    return marks


def _scoped(mark: ScopedMark, chart: Chart) -> str:
    if mark.key is not None:
        return f"key {_shift(mark.key, chart.key)}"
    if mark.metre is not None:
        return f"meter {mark.metre}"
    return f"tempo {mark.tempo}" if mark.tempo is not None else f"feel {mark.feel}"


def _signs_after(bar: Bar) -> list[str]:
    return ["to coda"] * bar.to_coda + ["fine"] * bar.fine + ([bar.jump] if bar.jump else [])


def _with_cues(bar: Bar, key: Key, chart: Chart) -> list[str]:
    """The bar's tokens with its cues before them."""
    tokens = _tokens(bar, key, chart.numbering)
    words, cues = [], list(bar.cues)
    for offset, text in tokens:
        while cues and cues[0].at <= offset:
            words.append(_cue(cues.pop(0)))
        words.append(text)
    return words + [_cue(cue) for cue in cues]


def _cue(cue: Cue) -> str:
    return f'"{cue.text}"' if cue.player is None else f'"@{cue.player} {cue.text}"'


def _tokens(bar: Bar, key: Key, numbering: Numbering) -> list[tuple[Fraction, str]]:
    if bar.copied:
        return [(Fraction(0), "%")]
    items = [Timed(_slot(slot, key, numbering), slot.length, slot.kind == "hold") for slot in bar.slots]
    plain = _plain_tokens(bar, items)
    if plain is not None:
        return plain
    return beat_texts(items, token_lengths(bar), more="/")


def _plain_tokens(bar: Bar, items: list[Timed]) -> list[tuple[Fraction, str]] | None:
    """The bar as chords that share it without saying how, where that says the same."""
    lengths = tuple(item.length for item in items)
    starts = [sum(lengths[:i], Fraction(0)) for i in range(len(items))]
    cues_fit = all(cue.at in starts or cue.at >= bar.length for cue in bar.cues)
    rests = any(slot.kind == "rest" for slot in bar.slots) and len(items) > 1
    if not cues_fit or rests or _shared(bar, items) != lengths:
        return None
    return list(zip(starts, (item.text for item in items), strict=True))


def _shared(bar: Bar, items: list[Timed]) -> tuple[Fraction, ...] | None:
    words = tuple(item.text for item in items)
    if len(words) == 1:
        return (bar.length,)
    try:
        if bar.pickup is not None:
            return pickup_lengths(bar.metre, bar.pickup, words)
        return shared_lengths(bar.metre, words)
    except Misfit:
        return None


def _slot(slot: Slot, key: Key, numbering: Numbering) -> str:
    if slot.kind == "hold":
        return "-"
    if slot.chord is None:
        text = "0" if slot.kind == "rest" else "NC"
    else:
        scale = numbering.scale(key) if numbering.plain == "diatonic" else ()
        text = write_number(slot.chord, scale=scale, lowers=numbering.lowers(key))
    return "".join((text, *(f".{mark}" for mark in slot.marks)))
