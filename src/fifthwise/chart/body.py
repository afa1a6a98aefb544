"""What follows a chart's head: sections, bars and what stands under them, read line by line."""

import re

from fifthwise.chart.bar_text import ChordReader
from fifthwise.chart.drafts import LineDraft, SectionDraft
from fifthwise.chart.errors import FormFault
from fifthwise.chart.form_text import read_form
from fifthwise.chart.head import Head
from fifthwise.chart.heading import opens_section, read_heading
from fifthwise.chart.line_text import LineReader
from fifthwise.chart.model import Chart, FormItem, Section
from fifthwise.chart.navigation import navigation_faults
from fifthwise.chart.order import playing_order
from fifthwise.chart.scope import head_scope
from fifthwise.chart.source import FaultList
from fifthwise.chart.structure import repeat_groups
from fifthwise.chart.tokens import Token, split_line
from fifthwise.chart.under import UNDER, UnderReader
from fifthwise.theory import ChordFault, Numbering, read_chord

__all__ = ["BodyReader"]

NAMED = re.compile(r"\s*([A-Za-z]+):")
OPENS_BARS = re.compile(r'\s*(?:[|:\["(/%\-]|(?:bb|##|[b#♭♯])?[0-9]|NC\b|N\.C\.)')


class BodyReader:
    """Reads the lines after the head."""

    def __init__(self, head: Head, faults: FaultList) -> None:
        self.head, self.faults = head, faults
        minor = head.texts.get("minor", "from-six")
        plain = head.texts.get("plain", "explicit")
        self.numbering = Numbering(minor, plain)  # type: ignore[arg-type]  # checked by read_head
        faults.natural = minor == "natural"
        scope = head_scope(head.key, head.metre, head.tempo, head.texts.get("feel"))
        self.lines = LineReader(head.key, scope, ChordReader(self.numbering, faults, head.key), faults)
        self.under = UnderReader(faults)
        self.sections: list[SectionDraft] = []

    def read(self, text: str, number: int) -> None:
        """Read one line."""
        if not text.strip():
            return
        if opens_section(text):
            self.lines.open_section()
            self.under.open_section()
            self.sections.append(read_heading(text, number, self.faults))
        elif (named := NAMED.match(text)) and self._is_name(named[1], text, named.end()):
            self.under.read(named[1], text, named.end(), number)
        elif self._is_prose(text):
            what = "this line is neither bars nor a heading"
            fix = "Write bars, '# name', 'words: …' or '<!-- … -->'"
            self.faults.add(number, len(text) - len(text.lstrip()) + 1, len(text.strip()), what, fix)
        else:
            self._bars(text, number)

    def _is_name(self, name: str, text: str, end: int) -> bool:
        """Whether this names a line; ``V:|`` is a bar and the end of a repeat."""
        return name.lower() in UNDER or not text.startswith("|", end)

    def _is_prose(self, text: str) -> bool:
        if "|" in text or OPENS_BARS.match(text):
            return False
        words = [word for token in split_line(text) for word in _chord_words(token)]
        chords = sum(self._is_chord(word) for word in words)
        return not words or chords * 2 < len(words) or not self._is_chord(words[0])

    def _is_chord(self, word: str) -> bool:
        try:
            read_chord(word.split(".")[0], self.head.key, self.numbering)
        except ChordFault:
            return False
        return True

    def _bars(self, text: str, number: int) -> None:
        if not self.sections:
            self.sections.append(SectionDraft(None, number))
        bars = self.lines.read_line(text, number)
        if bars:
            line = LineDraft(bars)
            self.under.add_bars(line)
            self.sections[-1].lines.append(line)

    def finish(self) -> Chart:
        """Check what only the whole shows, and freeze the chart."""
        self.lines.open_section()
        self.under.open_section()
        self._check_sections()
        head = self.head
        sections = tuple(section.freeze() for section in self.sections)
        form = self._form(sections)
        self._check_navigation()
        self._check_opening(form)
        chart = Chart(
            title=head.title, key=head.key, sections=sections, by=head.texts.get("by"), metre=head.metre,
            tempo=head.tempo, feel=head.texts.get("feel"), form=form, tags=head.texts.get("tags"),
            octave=head.octave, lowest=head.lowest, highest=head.highest,
            minor=self.numbering.minor, plain=self.numbering.plain,
        )  # fmt: skip
        if not self.faults.faults:
            self._check_order(chart)
        return chart

    def _form(self, sections: tuple[Section, ...]) -> tuple[FormItem, ...]:
        if "form" not in self.head.texts:
            return ()
        form, notes = read_form(self.head.texts["form"], sections, self.head.key)
        line, column = self.head.places["form"]
        for offset, length, what, fix in notes:
            self.faults.add(line, column + offset, length, what, fix)
        return form

    def _check_sections(self) -> None:
        if not any(section.lines for section in self.sections):
            at = max(1, len(self.faults.lines))
            self.faults.add(at, 1, 1, "the chart has no bars", "Write bars, as in '1 | 4 | 5 | 1'")
        for section in self.sections:
            if not section.lines and section.name:
                what = f"the section '{section.name}' has no bars"
                fix = "Write its bars, or take the heading out"
                self.faults.add(section.line_number, 1, 1, what, fix)
            bars = section.bars
            for fault in repeat_groups(bars)[1]:
                bar = bars[fault.bar]
                self.faults.add(bar.line_number, bar.column, 1, fault.what, fault.fix)

    def _check_navigation(self) -> None:
        bars = [bar for section in self.sections for bar in section.bars]
        for bar, sign, what, fix in navigation_faults(bars, has_form="form" in self.head.texts):
            self.faults.add(*bar.signs[sign], what, fix)

    def _check_opening(self, form: tuple[FormItem, ...]) -> None:
        """Nothing can go on before the first chord."""
        played = [item.section for item in form if item.section is not None]
        bars = self.sections[played[0] if played else 0].bars if self.sections else []
        if bars and bars[0].slots and bars[0].slots[0].kind == "hold":
            line, column, _ = bars[0].first_token
            what, fix = (
                "nothing sounds before this bar, so nothing can go on",
                "Write a chord, or '0' for a rest",
            )
            self.faults.add(line, column, 1, what, fix)

    def _check_order(self, chart: Chart) -> None:
        """A sound text may still not unfold."""
        try:
            playing_order(chart)
        except FormFault as fault:
            line, column = self.head.places.get("form", (self.sections[0].line_number, 1))
            length = len(self.head.texts.get("form", "#"))
            if fault.place:
                section, bar = fault.place
                line, column, length = self.sections[section].bars[bar].first_token
            self.faults.add(line, column, length, fault.what, fault.fix)


def _chord_words(token: Token) -> list[str]:
    """What must be chords where a token stands in a line of bars; cues, marks and beats say nothing."""
    if token.kind == "group":
        return token.text.strip("()").split()
    return [] if token.kind in ("cue", "mark") or token.text == "/" else [token.text]
