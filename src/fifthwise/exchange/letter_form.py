"""The playing order of a chart in letters: sections that are only named are those written before.

``[Chorus]`` without bars under it means the chorus again, and ``Verse 2`` the bars of ``Verse 1``. Then the
chart gets a ``form:``, in which every section has a name of its own.
"""

from dataclasses import replace

from fifthwise.exchange.letter_cells import SectionDraft
from fifthwise.exchange.letter_head import LEFT_OUT
from fifthwise.exchange.letter_headings import stem
from fifthwise.exchange.placed import Piece, Source

__all__ = ["form_pieces", "recalled"]


def recalled(sections: list[SectionDraft]) -> dict[int, SectionDraft]:
    """The section that is meant by each one without bars, by its place; one that means none is left out."""
    found: dict[int, SectionDraft] = {}
    named: dict[
        str, SectionDraft
    ] = {}  # the last section with bars of each name and, after a ':', of each kind
    for place, section in enumerate(sections):
        if section.name is None:
            continue
        name, kind = section.name.text.lower(), f":{stem(section.name.text)}"
        if section.rows:
            named[name] = named[kind] = section
        elif name in named or kind in named:
            found[place] = named.get(name) or named[kind]
    return found


def form_pieces(
    sections: list[SectionDraft], meant: dict[int, SectionDraft], head_key: str, source: Source
) -> list[Piece]:
    """Name the sections apart, and write the form; times move from the headings into it."""
    _name_apart(sections, source)
    pieces, key = [], head_key
    for place, section in enumerate(sections):
        target = meant.get(place, section)
        if place in meant:
            _give_words(section, target, source)
        wanted = section.key if place in meant else head_key
        assert target.name is not None
        assert section.name is not None
        at = section.name
        if wanted != key and target.key == head_key:
            key = wanted
            pieces.append(Piece(f"[key {key}]", at.line, at.column, at.length))
        times = f" {section.times.text}" if section.times else ""
        pieces.append(Piece(f"{target.name.text}{times},", at.line, at.column, at.length))
    for section in sections:
        section.times = None
    last = pieces[-1]
    return [*pieces[:-1], replace(last, text=last.text.removesuffix(","))]


def _name_apart(sections: list[SectionDraft], source: Source) -> None:
    """Give each section with bars a name of its own."""
    used: dict[str, int] = {}
    for section in sections:
        if not section.rows:
            continue
        if section.name is None:
            first = section.cells[0].tokens[0]
            section.name = Piece("start", first.line, first.column, first.length)
            what = "the bars before the first heading are called 'start'"
            source.tell(section.name, what, "Give them a heading, as in '[Intro]'")
        name, bare = section.name.text, section.name.text.lower()
        while name.lower() in used:
            used[bare] += 1
            name = f"{section.name.text} {used[bare]}"
        used[name.lower()] = 1
        if name != section.name.text:
            what = f"the name '{section.name.text}' stands over other bars already; these are called '{name}'"
            source.tell(section.name, what, "Name the two apart if you want other names")
            section.name = replace(section.name, text=name)


def _give_words(section: SectionDraft, target: SectionDraft, source: Source) -> None:
    """The words of a section that is only named are another verse of the one that is meant."""
    if len(section.words) == len(target.rows):
        for row, words in zip(target.rows, section.words, strict=True):
            row.words.append(words)
    else:
        for words in section.words:
            fix = "Write as many lines of words as there are lines of bars that they are sung to"
            source.tell(words, f"'{words.text}' is left out", fix)
    for cue in section.cues:
        source.tell(cue, f"{cue.text} is left out, since the bars stand elsewhere", LEFT_OUT)
    section.words, section.cues = [], []
