"""A song as plain text: bars under each other, marks as signs, for any screen and any printer."""

from collections.abc import Iterator

from fifthwise.page.layout_bar import SheetBar
from fifthwise.page.layout_model import RoadStop, Sheet, SheetSection
from fifthwise.page.text_bar import MEANINGS, slot_text, text_bar
from fifthwise.page.text_row import Grid, row_lines

__all__ = ["text_page"]

LEAST = 8


def text_page(sheet: Sheet) -> str:
    """Write a song in a font of even width, every bar of it equally wide."""
    grid = _grid(sheet)
    lines = [*_head(sheet)]
    for section in sheet.sections:
        lines += ["", *_section(section, grid)]
    lines += ["", *_foot(sheet)]
    return "\n".join(line.rstrip() for line in lines).rstrip() + "\n"


def _bars(sheet: Sheet) -> Iterator[SheetBar]:
    for section in sheet.sections:
        for row in section.rows:
            yield from (row.pickup, *row.bars) if row.pickup else row.bars


def _grid(sheet: Sheet) -> Grid:
    inside = [text_bar(bar).width for bar in _bars(sheet) if bar.column >= 0]
    hung = [text_bar(bar).width for bar in _bars(sheet) if bar.column < 0]
    return Grid(max([LEAST, *inside]), max(hung, default=0))


def _head(sheet: Sheet) -> Iterator[str]:
    yield sheet.title
    if sheet.by:
        yield sheet.by
    singer = f"{sheet.view.singer} sings" if sheet.view.singer else ""
    key = f"Key {sheet.key}" + (f" (sounds {sheet.sounds})" if sheet.sounds else "")
    facts = (
        key,
        sheet.metre,
        f"{sheet.tempo} to the {sheet.tempo_note}",
        sheet.feel,
        singer,
        sheet.view.part.label,
    )
    yield ", ".join(fact for fact in (*facts, *sheet.reads) if fact)
    for line in sheet.strip:
        where = f"{line.starts}, {line.key}: " if line.starts else ""
        yield where + "   ".join(
            f"{entry.number.text} = {entry.letters.text}"
            + (f" (sounds {entry.sounds.text})" if entry.sounds else "")
            + (" (home)" if entry.home else "")
            for entry in line.entries
        )
        if line.anchors:
            ways = "; ".join(f"{mark.number.text}: {mark.words}" for mark in line.anchors.marks)
            yield f"Under the fingers, {line.anchors.position}: {ways}"
    if sheet.road:
        yield "Form: " + ", ".join(map(_stop, sheet.road))
    yield from sheet.notes


def _stop(stop: RoadStop) -> str:
    key = f"in {stop.key}: " if stop.key else ""
    return f"{key}{stop.name}" + (f" x{stop.times}" if stop.times > 1 else "")


def _section(section: SheetSection, grid: Grid) -> Iterator[str]:
    times = f"x{section.times}" if section.times > 1 else ""
    cues = (
        f'"{cue.player}: {cue.text}"' if cue.player else f'"{cue.text}"' for cue in section.cues if cue.text
    )
    label = "  ".join(text for text in (section.name, times, *cues, *section.notes) if text)
    if label:
        yield label
    for row in section.rows:
        yield from row_lines(row, grid)


def _foot(sheet: Sheet) -> Iterator[str]:
    """Our signs that differ from the printed ones, then what is spelled otherwise."""
    used = {sign for bar in _bars(sheet) for sign in _signs_in(bar)}
    if used:
        yield "Signs: " + ", ".join(f"{sign} {words}" for sign, words in MEANINGS.items() if sign in used)
    for item in sheet.legend:
        if item.sign == "jump":
            yield f"After D.S. or D.C. {item.words}."
    if sheet.respelled:
        yield "Read as everyday names: " + ", ".join(f"{r.shown} for {r.strict}" for r in sheet.respelled)


def _signs_in(bar: SheetBar) -> Iterator[str]:
    for slot in bar.slots:
        text = slot_text(slot)
        marks = text[: len(text) - len(slot.main.text)] if slot.main else ""
        yield from ("<<",) if "<<" in marks else ()
        yield from marks.replace("<<", "")
    if bar.uneven and any(slot.beats > 1 for slot in bar.slots):
        yield "/"
    if any(note.divided for note in bar.tune):
        yield "( )"
