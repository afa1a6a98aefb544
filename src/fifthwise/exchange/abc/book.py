"""A file parted into its tunes: the file's head, tunes with their lines, free text between them.

A tune begins at ``X:`` and ends at an empty line. An empty line before its first music is overlooked, since
many files have one.

References
----------
The abc music standard 2.1, 2.2 "Abc file structure"; from memory.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

__all__ = ["BODY", "FIELD", "TuneText", "parted_tunes"]

LINE_END = re.compile(r"\r\n?|\n")
FIELD = re.compile(r"(?:([A-Za-z])|(\+)):(.*)", re.DOTALL)
# A field of a body; a rest or a bar line behind a letter is none, as in "Z:|".
BODY = re.compile(r"[IKLMNOPQRSTUVWXZHmrsw+]:(?![|:])")
COMMENT = re.compile(r"(?<!\\)%.*", re.DOTALL)
# A line behind a tune's end that looks like more of its music.
STRAY = re.compile(r"(?=.*\|)[-A-Ga-gzxyTHLMuv0-9 ,'/|:\[\]()<>{}.~^_=!+\\]+\Z")
TEXT_BLOCKS = (("%%begintext", "%%endtext"), ("%%beginps", "%%endps"), ("%%beginsvg", "%%endsvg"))


@dataclass(slots=True)
class TuneText:
    """The lines of one tune, without remarks.

    Attributes
    ----------
    line : int
        Where it begins in the file, from 1.
    directives : list of str
        ``%%`` lines of the tune and of the file's head.
    head, body : list of str
        Lines up to ``K:``, and behind it.
    strays : int
        Lines in its head that are no fields, and lines behind its end that look like music.
    """

    line: int
    directives: list[str] = field(default_factory=list)
    head: list[str] = field(default_factory=list)
    body: list[str] = field(default_factory=list)
    strays: int = 0


def parted_tunes(text: str) -> Iterator[TuneText]:
    """The tunes of a file; each has the fields of the file's head before its own."""
    return _Parter(LINE_END.split(text)).tunes()


class _Parter:
    """Reads lines into tunes."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        self.shared = TuneText(1)
        self.tune: TuneText | None = None
        self.block = ""  # what ends the block of free text that the reading stands in
        self.in_head = self.in_body = self.has_music = self.ended = False

    def tunes(self) -> Iterator[TuneText]:
        numbered = any(line.startswith("X:") for line in self.lines)
        for number, line in enumerate(self.lines, 1):
            if self._is_free(line):
                continue
            begins = line.startswith("X:") if numbered else self.tune is None and FIELD.match(line)
            if begins:
                if self.tune is not None:
                    yield self.tune
                self._begin(number)
            self._add(line)
        if self.tune is not None:
            yield self.tune

    def _is_free(self, line: str) -> bool:
        """Whether a line stands in a block of free text."""
        if self.block:
            self.block = "" if line.startswith(self.block) else self.block
            return True
        if not line.startswith("%%"):
            return False
        self.block = next((end for begin, end in TEXT_BLOCKS if line.startswith(begin)), "")
        return bool(self.block)

    def _begin(self, number: int) -> None:
        shared = self.shared
        self.tune = TuneText(number, list(shared.directives), list(shared.head))
        self.in_head, self.in_body, self.has_music, self.ended = True, False, False, False

    def _add(self, line: str) -> None:
        tune = self.tune or self.shared
        if line.startswith("%%") or line.startswith("I:"):
            tune.directives.append(line[2:].strip())
            return
        if not line.strip():
            self.ended = self.ended or (bool(tune.head) if self.tune is None else self.has_music)
            return
        line = COMMENT.sub("", line).rstrip() if "%" in line else line.rstrip()
        if self.ended:
            tune.strays += self.tune is not None and bool(STRAY.match(line))
        elif line:
            self._add_to(tune, line)

    def _add_to(self, tune: TuneText, line: str) -> None:
        if self.tune is None:
            if FIELD.match(line):
                tune.head.append(line)
        elif self.in_head and FIELD.match(line):
            tune.head.append(line)
            self.in_body = line.startswith("K:")
            self.in_head = not self.in_body
        else:
            self._add_to_body(tune, line)

    def _add_to_body(self, tune: TuneText, line: str) -> None:
        """A line of music, or what turns out to be one of the head: that ends with the first ``K:``."""
        if line.startswith("K:") and not self.in_body:
            tune.head += [each for each in tune.body if FIELD.match(each)] + [line]
            tune.strays += sum(not FIELD.match(each) for each in tune.body)
            tune.body.clear()
            self.in_body, self.has_music = True, False
            return
        self.in_head = False
        tune.body.append(line)
        self.has_music = self.has_music or not BODY.match(line)
