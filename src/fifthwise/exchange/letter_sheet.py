"""A chart in letters read line by line: what each line is, and where what it says goes."""

import re
from collections.abc import Iterable

from fifthwise.exchange.holding import Holding
from fifthwise.exchange.letter_bars import BarsReader
from fifthwise.exchange.letter_cells import SectionDraft
from fifthwise.exchange.letter_fields import read_fields
from fifthwise.exchange.letter_hand import Hand
from fifthwise.exchange.letter_head import LEFT_OUT, HeadReader
from fifthwise.exchange.letter_headings import Heading, is_part, read_heading, stands_among_words
from fifthwise.exchange.letter_marks import cue_piece
from fifthwise.exchange.letter_tokens import BODY, Token, could_be_music, is_chord, is_number, split_bars
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import Key

__all__ = ["SheetReader"]

RULE = re.compile(r"[-=_*~\s]+\Z")
ASIDE = re.compile(r"\s*(?://(?=\s*[A-Za-z]{3})|;)")
TABLATURE = re.compile(r"\s*+[A-Ga-g]?[#b]?\s*+[|:]++(?=[^|]*-{2})[-0-9hpbrxst~/\\()|:.\s]++\Z")
STROKES = re.compile(
    r"\s*+(?:[A-Za-z]{3,20}+\s*+:\s*+)?(?=[^UuDd↓↑]*[UuDd↓↑])(?=[^Uu↓↑]*[Uu↓↑])[UuDdXx↓↑\-.\s&|]++\Z"
)
TIMES = re.compile(r"\s*+\(?\s{0,4}(?:[xX×]\s{0,4}\d{1,3}|\d{1,3}\s{0,4}[xX×])\s{0,4}\)?\s*+\Z")
BAR_SIGN = re.compile(r"[|‖𝄀-𝄇]")
# A jump beside no bar: it would otherwise be taken for sung words.
JUMP_LINE = re.compile(
    r"[(\[]?\s*(?:[Dd]\.?\s?[SCsc]\.?(?:\s+al\s+(?:[Cc]oda|[Ff]ine))?|[Tt]o\s+[Cc]oda|Fine|FINE|[Ss]egno)\.?\s*[)\]]?"
)
JUMP_FIX = "Write it behind the chords of its bar, as in '| G | C D.S. al Coda |'"
NUMBERS = re.compile(r"(?:[b#♭♯]?[1-7][-–\dmb#♭♯°o+/.']*+(?:[\s|]++|\Z))++\Z")
NUMBERS_FIX = "Write its chords in letters, as the others are"
SUNG = re.compile(r"(?:words|lyrics?|text)\s*:\s*", re.IGNORECASE)
CHORDS_WITHOUT_BARS = "Put '|' between the bars, as in '| G | C D | Em |'"


class SheetReader:
    """Reads the lines of a chart in letters into sections."""

    def __init__(self, source: Source, key: Key | None) -> None:
        self.source = source
        self.holding = Holding({"meter": "4/4"})
        self.bars = BarsReader(source, self.holding, self._hand())
        self.head = HeadReader(source, self.bars.marks, key, key is not None)
        if key is not None:
            self.head.set_key(key)
        self.sections: list[SectionDraft] = []
        self.numbers: list[Piece] = []  # chords written as numbers
        self.letters = 0

    def _hand(self) -> Hand | None:
        """The hand in which the bars are typed; ``None`` where it is letters."""
        return None

    @property
    def begun(self) -> bool:
        """Whether any bars have been read."""
        return any(section.rows for section in self.sections)

    def read_all(self, lines: Iterable[str]) -> None:
        """Read every line, and close the last section."""
        for number, line in enumerate(lines, start=1):
            self.read(line, number)
        self.finish()

    def read(self, text: str, line: int) -> None:
        """Read one line."""
        if not text.strip() or RULE.match(text):
            return
        at = self.source.whole(line)
        if ASIDE.match(text):
            self.source.tell(at, "this remark is left out", LEFT_OUT)
        elif TABLATURE.match(text):
            self.source.tell(at, "this line of tablature is left out", "Write what is played under 'tune:'")
        elif STROKES.match(text):
            self.source.tell(at, "this line of strokes is left out", LEFT_OUT)
        elif TIMES.match(text):
            self.bars.play_again(at)
        elif not self._fields(text, line):
            self._heading_or_bars(text, line, at)

    def _fields(self, text: str, line: int) -> bool:
        found = read_fields(text)
        if not found or (found[0].name == "by" and self.begun):
            return False
        for item in found:
            self.head.read(item, line, begun=self.begun)
        return True

    def _heading_or_bars(self, text: str, line: int, at: Piece) -> None:
        heading = read_heading(text)
        if heading is not None and stands_among_words(heading):
            self.source.fault(at, "chords stand among the words, without bars", CHORDS_WITHOUT_BARS)
        elif heading is not None and self._is_title(heading, text):
            self.head.texts["title"] = Piece(heading.name, line, heading.column, heading.length)
        elif heading is not None and (heading.sure or BAR_SIGN.search(heading.rest) or not heading.rest):
            self._open_section(heading, line)
        else:
            self._bars_or_words(text, line, at, 1)

    def _is_title(self, heading: Heading, text: str) -> bool:
        """Whether the first line is set off as a heading, but names no part of a song."""
        first = not self.sections and "title" not in self.head.texts
        return first and text.lstrip()[0] in "#=*_-" and not is_part(heading.name) and not heading.rest

    def _open_section(self, heading: Heading, line: int) -> None:
        name = Piece(heading.name or "section", line, heading.column, heading.length)
        times = Piece(f"x{heading.times}", line, heading.times_column, 2) if heading.times != 1 else None
        self._close_section()
        section = SectionDraft(name, times)
        self.sections.append(section)
        self.bars.open_section(section)
        if not heading.rest:
            return
        at = Piece(heading.rest, line, heading.rest_column, len(heading.rest))
        if self._is_bars(heading.rest):
            self._bars_or_words(heading.rest, line, at, heading.rest_column)
        else:
            section.cues.append(cue_piece(at, heading.rest.strip('()"“”')))

    def _is_bars(self, text: str) -> bool:
        """Whether what follows a heading on its line is bars."""
        return bool(BAR_SIGN.search(text)) or _all_chords(text)

    def _close_section(self) -> None:
        if self.sections and not self.sections[-1].rows:
            self.sections[-1].key = self.holding.value("key")
        self.bars.close_section()

    def _bars_or_words(self, text: str, line: int, at: Piece, column: int) -> None:
        tokens = [token for token in split_bars(text, column) if token.kind in BODY]
        music = [token for token in tokens if could_be_music(token)]
        if BAR_SIGN.search(text) and (len(music) * 2 >= len(tokens) or (music and text.lstrip()[0] == "|")):
            self._count(music, line)
            self._bars(text, line, column)
        elif JUMP_LINE.fullmatch(text.strip()):
            self.source.fault(at, f"'{text.strip()}' stands on a line of its own", JUMP_FIX)
        elif _all_chords(text):
            self.source.fault(at, "this line of chords has no bar lines", CHORDS_WITHOUT_BARS)
        else:
            self._words(at)

    def _count(self, music: list[Token], line: int) -> None:
        """Count what is written in letters and what in numbers."""
        for token in music:
            if token.kind == "word" and is_number(token.text):
                self.numbers.append(Piece(token.text, line, token.column, len(token.text)))
            elif token.kind in ("word", "group"):
                self.letters += 1

    def _bars(self, text: str, line: int, column: int) -> None:
        if not self.sections:
            self.sections.append(SectionDraft())
            self.bars.open_section(self.sections[0])
        self.bars.read(text, line, column)
        section = self.sections[-1]
        section.key = section.key or (self.holding.value("key") if section.rows else "")

    def _words(self, at: Piece) -> None:
        """Words under bars are sung; the first line of all is the title. Numbers are neither."""
        if NUMBERS.match(at.text):
            self.source.tell(at, f"the numbers '{at.text[:40]}' are left out", NUMBERS_FIX)
            return
        sung = Piece(" ".join(SUNG.sub("", at.text).split()), at.line, at.column, at.length)
        if self.sections and self.sections[-1].rows:
            row = self.sections[-1].rows[-1]
            if sung.text.strip("| ").count("|") >= len(row.cells):
                sung = Piece(" ".join(sung.text.replace("|", " ").split()), at.line, at.column, at.length)
            row.words.append(sung)
        elif self.sections:
            self.sections[-1].words.append(sung)
        elif "title" not in self.head.texts:
            self.head.texts["title"] = sung
        else:
            self.source.tell(at, f"'{at.text}' is left out", LEFT_OUT)

    def finish(self) -> None:
        """Close the last section."""
        self._close_section()


def _all_chords(text: str) -> bool:
    tokens = [token for token in split_bars(text) if token.kind in BODY]
    words = [token for token in tokens if token.kind == "word"]
    return bool(words) and all(is_chord(t.text) if t.kind == "word" else t.kind != "stray" for t in tokens)
