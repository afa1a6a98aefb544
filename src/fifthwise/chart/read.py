"""Charts read from text: every fault at once, and the rest of the chart all the same."""

import difflib
import re
from dataclasses import dataclass

from fifthwise.chart.bar_text import ChordReader, read_cue
from fifthwise.chart.drafts import BarDraft, LineDraft, SectionDraft
from fifthwise.chart.errors import ChartFaults, Fault
from fifthwise.chart.form_text import read_form
from fifthwise.chart.head import Head, read_head
from fifthwise.chart.line_text import LineReader
from fifthwise.chart.model import Chart
from fifthwise.chart.navigation import navigation_faults
from fifthwise.chart.scope import head_scope
from fifthwise.chart.source import FaultList, blank_remarks
from fifthwise.chart.structure import repeat_groups
from fifthwise.chart.tokens import Token
from fifthwise.chart.tune_line import read_finger_bars, read_tune_bars, split_cells
from fifthwise.theory import ChordFault, Numbering, read_chord

__all__ = ["Reading", "parse", "read_chart"]

HEADING = re.compile(r"\s*#(?!\d|b?\d)\s*(.*)\Z")
NAMED = re.compile(r"\s*([A-Za-z]+):")
CUE = re.compile(r'"[^"]*"')
TIMES = re.compile(r"(?:(.*\S)\s+)?x(\d{1,2})\Z")
UNDER = ("words", "tune", "fingers")
MOST_TIMES = 32
OPENS_BARS = re.compile(r'\s*(?:[|:\["(/%\-]|(?:bb|##|[b#♭♯])?\d|NC\b|N\.C\.)')


@dataclass(frozen=True, slots=True)
class Reading:
    """What reading a text gave.

    Attributes
    ----------
    chart : Chart
        All that could be read; a bar at fault has no slots.
    faults : tuple of Fault
        In text order; empty where the chart is sound.
    notices : tuple of Fault
        What was read, but may have been meant otherwise.
    """

    chart: Chart
    faults: tuple[Fault, ...]
    notices: tuple[Fault, ...]


def parse(text: str, file: str = "chart") -> Chart:
    """Read a chart.

    Raises
    ------
    ChartFaults
        Everything that is wrong with it.
    """
    reading = read_chart(text, file)
    if reading.faults:
        raise ChartFaults(reading.faults)
    return reading.chart


def read_chart(text: str, file: str = "chart") -> Reading:
    """Read a chart, its faults and its notices."""
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").split("\n")
    faults = FaultList(file, lines)
    body = blank_remarks("\n".join(lines)).split("\n")
    head, start = read_head(body, faults)
    reader = _BodyReader(head, faults)
    for number in range(start, len(body)):
        reader.read(body[number], number + 1)
    chart = reader.finish()
    return Reading(chart, _in_order(faults.faults), _in_order(faults.notices))


def _in_order(faults: list[Fault]) -> tuple[Fault, ...]:
    return tuple(sorted(faults, key=lambda f: (f.line, f.column)))


class _BodyReader:
    """Reads what follows the head, line by line."""

    def __init__(self, head: Head, faults: FaultList) -> None:
        self.head, self.faults = head, faults
        minor = head.texts.get("minor", "from-six")
        plain = head.texts.get("plain", "explicit")
        self.numbering = Numbering(minor, plain)  # type: ignore[arg-type]  # checked by read_head
        faults.natural = minor == "natural"
        scope = head_scope(head.key, head.metre, head.tempo, head.texts.get("feel"))
        self.lines = LineReader(head.key, scope, ChordReader(self.numbering, faults, head.key), faults)
        self.sections: list[SectionDraft] = []
        self.untuned: list[LineDraft] = []  # lines of bars over the next tune line
        self.tuned: list[BarDraft] = []  # bars of the last tune line, for its fingers
        self.had_tune = False

    def read(self, text: str, number: int) -> None:
        """Read one line."""
        if not text.strip():
            return
        if heading := HEADING.match(text):
            self._heading(heading[1], text, number)
        elif (named := NAMED.match(text)) and named[1].lower() not in ("nc",):
            self._under(named[1], text, named.end(), number)
        elif self._is_prose(text):
            what, fix = (
                "this line is neither bars nor a heading",
                "Write bars, '# name', 'words: …' or '<!-- … -->'",
            )
            self.faults.add(number, len(text) - len(text.lstrip()) + 1, len(text.strip()), what, fix)
        else:
            self._bars(text, number)

    def _is_prose(self, text: str) -> bool:
        if "|" in text or OPENS_BARS.match(text):
            return False
        words = text.split()
        chords = sum(self._is_chord(word) for word in words)
        return chords * 2 < len(words) or not self._is_chord(words[0])

    def _is_chord(self, word: str) -> bool:
        try:
            read_chord(word.split(".")[0], self.head.key, self.numbering)
        except ChordFault:
            return False
        return True

    def _heading(self, text: str, line: str, number: int) -> None:
        self.lines.open_section()
        self.untuned, self.tuned = [], []
        if text.startswith("#"):
            self.faults.add(number, 1, len(line), "a heading has one '#'", f"Write '# {text.lstrip('# ')}'")
            text = text.lstrip("# ")
        cues = [read_cue(Token("cue", m[0], m.start() + 1)) for m in CUE.finditer(text)]
        name = CUE.sub(" ", text).strip()
        times = 1
        if match := TIMES.match(name):
            name, times = match[1] or "", int(match[2])
            if not 1 <= times <= MOST_TIMES:
                self.faults.add(
                    number, line.index("x" + match[2]) + 1, 3, "out of range", f"Write x2 to x{MOST_TIMES}"
                )
                times = 1
        if not name or '"' in name:
            what = "the heading has no name" if not name else "the cue is not closed"
            self.faults.add(number, 1, len(line), what, "Write it as in '# verse'")
        self.sections.append(SectionDraft(" ".join(name.split()) or None, number, times, cues))

    def _under(self, name: str, text: str, start: int, number: int) -> None:
        kind = name.lower()
        if kind not in UNDER:
            near = difflib.get_close_matches(kind, UNDER, n=1)
            fix = (
                f"Did you mean '{near[0]}:'?" if near else "Under bars stand 'words:', 'tune:' and 'fingers:'"
            )
            at = text.index(name) + 1
            self.faults.add(number, at, len(name) + 1, f"unknown line '{name}:'", fix, tuple(near))
        elif not self.sections or not self.sections[-1].lines:
            self.faults.add(number, 1, start, f"'{kind}:' stands under no bars", "Write the bars above it")
        elif kind == "words":
            self._words(text, start, number)
        elif kind == "tune":
            self._tune(text, start, number)
        else:
            self._fingers(text, start, number)

    def _words(self, text: str, start: int, number: int) -> None:
        line = self.sections[-1].lines[-1]
        words = text[start:].strip()
        if "|" in words and len(split_cells(words, 0)) > len(line.bars):
            what = f"{len(split_cells(words, 0))} bars of words for {len(line.bars)} bars"
            self.faults.add(
                number, start + 1, len(text) - start, what, "Align them bar by bar, or leave the '|' out"
            )
        line.words.append(words)

    def _tune(self, text: str, start: int, number: int) -> None:
        bars = self._bars_under(len(split_cells(text, start)))
        if bars is None:
            have = sum(len(line.bars) for line in self.untuned)
            found = len(split_cells(text, start))
            what = f"{found} bar{'' if found == 1 else 's'} of tune for {have or 'no'} bar{'' if have == 1 else 's'}"
            self.faults.add(number, 1, len(text), what, "Write as many bars of tune as there are above it")
            self.untuned = []
            return
        read_tune_bars(text, start, number, bars, self.faults, sounding=self.had_tune)
        self.had_tune, self.tuned = True, bars

    def _bars_under(self, count: int) -> list[BarDraft] | None:
        """The bars a tune line of ``count`` bars belongs to: the last line's, or several lines'."""
        if self.untuned and len(self.untuned[-1].bars) == count:
            taken, self.untuned = self.untuned[-1:], []
            return taken[0].bars
        bars = [bar for line in self.untuned for bar in line.bars]
        if len(bars) < count:
            return None
        kept: list[LineDraft] = []
        while len([b for line in kept for b in line.bars]) < count:
            kept.append(self.untuned.pop(0))
        found = [bar for line in kept for bar in line.bars]
        return found if len(found) == count else None

    def _fingers(self, text: str, start: int, number: int) -> None:
        if not self.tuned:
            self.faults.add(number, 1, start, "'fingers:' stands under no tune", "Write 'tune:' above it")
            return
        read_finger_bars(text, start, number, self.tuned, self.faults)
        self.tuned = []

    def _bars(self, text: str, number: int) -> None:
        if not self.sections:
            self.sections.append(SectionDraft(None, number))
        bars = self.lines.read_line(text, number)
        if bars:
            line = LineDraft(bars)
            if self.sections[-1].lines and self._has_under(self.sections[-1].lines[-1]):
                self.untuned = []
            self.sections[-1].lines.append(line)
            self.untuned.append(line)

    def _has_under(self, line: LineDraft) -> bool:
        return bool(line.words) or any(bar.tune is not None for bar in line.bars)

    def finish(self) -> Chart:
        """Check what only the whole shows, and freeze the chart."""
        self.lines.open_section()
        self._check_sections()
        head = self.head
        sections = tuple(section.freeze() for section in self.sections)
        form = ()
        if "form" in head.texts:
            form, notes = read_form(head.texts["form"], sections, head.key)
            line, column = head.places["form"]
            for offset, length, what, fix in notes:
                self.faults.add(line, column + offset, length, what, fix)
        self._check_navigation()
        return Chart(
            title=head.title, key=head.key, sections=sections, by=head.texts.get("by"), metre=head.metre,
            tempo=head.tempo, feel=head.texts.get("feel"), form=form, tags=head.texts.get("tags"),
            octave=head.octave, lowest=head.lowest, highest=head.highest,
            minor=self.numbering.minor, plain=self.numbering.plain,
        )  # fmt: skip

    def _check_sections(self) -> None:
        if not any(section.bars for section in self.sections):
            at = max(1, len(self.faults.lines))
            self.faults.add(at, 1, 1, "the chart has no bars", "Write bars, as in '1 | 4 | 5 | 1'")
        for section in self.sections:
            if not section.bars and section.name:
                what, fix = (
                    f"the section '{section.name}' has no bars",
                    "Write its bars, or take the heading out",
                )
                self.faults.add(section.line_number, 1, 1, what, fix)
            for fault in repeat_groups(section.bars)[1]:
                bar = section.bars[fault.bar]
                self.faults.add(bar.line_number, bar.column, 1, fault.what, fault.fix)

    def _check_navigation(self) -> None:
        bars = [bar for section in self.sections for bar in section.bars]
        for bar, sign, what, fix in navigation_faults(bars, has_form="form" in self.head.texts):
            text = self.faults.lines[bar.line_number - 1].lower()
            at = text.replace("d.s.", "ds  ").replace("d.c.", "dc  ").find(f"[{sign}]", bar.column - 1)
            self.faults.add(bar.line_number, max(1, at + 1), len(sign) + 2, what, fix)
