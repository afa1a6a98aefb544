"""The lyric sheet as plain text: chords above the words they begin on, in a font of even width."""

from collections.abc import Iterator

from fifthwise.page.lyrics_model import LyricBlock, LyricLine, LyricSheet, Piece

__all__ = ["lyrics_text"]

BAR = 12  # places for a bar without words
TIMES = {1: "", 2: "twice"}


def lyrics_text(sheet: LyricSheet, *, letters: bool = False) -> str:
    """Write a lyric sheet for a screen or a printer without our fonts."""
    lines = [*_head(sheet)]
    for block in sheet.blocks:
        lines += ["", *_block(block, letters=letters)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _head(sheet: LyricSheet) -> Iterator[str]:
    yield sheet.title
    if sheet.by:
        yield sheet.by
    key = f"Key {sheet.key}"
    yield ", ".join(text for text in (sheet.singer and f"{sheet.singer} sings", key, *sheet.facts) if text)
    told = [text for text in (sheet.start, sheet.reach) if text]
    if told:
        yield ". ".join(told) + "."


def _block(block: LyricBlock, *, letters: bool) -> Iterator[str]:
    bars = "" if block.is_sung else f"{block.length} {'bar' if block.length == 1 else 'bars'}"
    times = TIMES.get(block.times, f"{block.times} times")
    key = f"now in {block.key}" if block.key else ""
    notes = "; ".join(text for text in (bars, times, key, *block.cues) if text)
    yield f"[{block.name or 'Song'}]" + (f"  {notes}" if notes else "")
    for line in block.lines:
        yield from _line(line, letters=letters)
        if block.is_sung and not line.has_words and line.bars:
            yield f"({line.bars} {'bar' if line.bars == 1 else 'bars'})"


def _line(line: LyricLine, *, letters: bool) -> Iterator[str]:
    """One row of cues where there are any, one of chords, one of words where there are any."""
    cues, chords, words = "", "", ""
    for piece in line.pieces:
        over = _over(piece, letters=letters)
        if over or piece.cue:
            at = max(len(chords), len(words))
            at = at if line.has_words or not piece.bar else -(-at // BAR) * BAR
            parted = words[-1:].isalnum() and len(words) < at
            chords, words = chords.ljust(at), (words + "-" * parted).ljust(at)
            cues = cues.ljust(at) + f'"{piece.cue}" ' if piece.cue else cues
        chords += f"{over} " if over else ""
        words += piece.word + ("" if piece.joins or not piece.word else " ")
    yield from (row for row in (cues, chords, words) if row.strip())


def _over(piece: Piece, *, letters: bool) -> str:
    bar = "| " if piece.bar else ""
    if piece.chord is None:
        return bar
    return bar + (piece.chord.letters if letters else piece.chord.number)
