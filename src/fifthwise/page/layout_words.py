"""Words under bars: bar by bar where the text aligns them, else spread over a line's rows."""

from collections.abc import Sequence

from fifthwise.chart import Line, Section

__all__ = ["aligned_words", "row_words"]


def aligned_words(section: Section) -> dict[int, tuple[str, ...]]:
    """The words of each bar by its index, one a verse, for lines whose words have bar lines."""
    words, at = {}, 0
    for line in section.lines:
        if _is_aligned(line):
            verses = [_parts(verse) for verse in line.words]
            for i in range(len(line.bars)):
                words[at + i] = tuple(parts[i] if i < len(parts) else "" for parts in verses)
        at += len(line.bars)
    return words


def _is_aligned(line: Line) -> bool:
    """Whether words stand under their bars; under a single bar, such as a pickup, all do."""
    return len(line.bars) == 1 or any("|" in verse for verse in line.words)


def _parts(verse: str) -> list[str]:
    return [part.strip() for part in verse.strip().removeprefix("|").removesuffix("|").split("|")]


def row_words(section: Section, rows: Sequence[Sequence[int]]) -> tuple[tuple[str, ...], ...]:
    """The words of each row, one a verse.

    Parameters
    ----------
    rows : sequence of sequence of int
        The indices of each row's bars. A line of the text that fills several rows is divided among them
        by their bars, to the nearest word.
    """
    found: list[list[list[str]]] = [[] for _ in rows]
    at = 0
    for line in section.lines:
        bars = range(at, at + len(line.bars))
        if line.words and not _is_aligned(line):
            _spread(line, [[i for i in row if i in bars] for row in rows], found)
        at += len(line.bars)
    return tuple(_joined(verses) for verses in found)


def _spread(line: Line, shares: list[list[int]], found: list[list[list[str]]]) -> None:
    total = sum(map(len, shares))
    done = 0
    for row, share in enumerate(shares):
        if share:
            verses = [verse.split() for verse in line.words]
            start, end = done, done + len(share)
            cut = [v[len(v) * start // total : len(v) * end // total] for v in verses]
            found[row].append([" ".join(words) for words in cut])
            done = end


def _joined(lines: list[list[str]]) -> tuple[str, ...]:
    verses = max(map(len, lines), default=0)
    return tuple("  ".join(line[v] for line in lines if v < len(line)) for v in range(verses))
