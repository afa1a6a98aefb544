"""A MusicXML file as a lead sheet."""

from collections.abc import Sequence
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from fifthwise.exchange.errors import EmptyScore, TooLarge, UnreadableFile
from fifthwise.exchange.lead_sheet import LeadSheet
from fifthwise.exchange.left_out import LeftOut
from fifthwise.exchange.musicxml.choose import ScorePart, best_line, chord_part, lines_of
from fifthwise.exchange.musicxml.limits import MOST_BARS, MOST_PARTS
from fifthwise.exchange.musicxml.mxl import is_packed, unpacked
from fifthwise.exchange.musicxml.raw import RawPart
from fifthwise.exchange.musicxml.read_part import read_part
from fifthwise.exchange.musicxml.to_sheet import lead_bars
from fifthwise.exchange.musicxml.tree import EXPORT_AGAIN, read_tree
from fifthwise.exchange.musicxml.values import text_at
from fifthwise.exchange.plain_texts import plain_line

__all__ = ["ReadScore", "read_musicxml"]

LONGEST_ID = 40
MOST_TOLD = 8  # lines that are named as left out
ROOTS = ("score-partwise", "score-timewise")


@dataclass(frozen=True, slots=True)
class ReadScore:
    """A score, read.

    Attributes
    ----------
    sheet : LeadSheet
        Its chords, and the line that was chosen as its tune.
    parts : tuple of ScorePart
        Every line that could be, in the order of the score.
    chosen : ScorePart
        The one that is.
    """

    sheet: LeadSheet
    parts: tuple[ScorePart, ...]
    chosen: ScorePart


def read_musicxml(data: bytes, file: str = "score.musicxml", *, part: str | None = None) -> ReadScore:
    """Read a MusicXML file, plain or packed (``.mxl``).

    Parameters
    ----------
    file : str
        The name under which faults are told.
    part : str or None
        The key of the line that is the tune, or the id or the name of its part; ``None`` lets the score
        choose.

    Raises
    ------
    TooLarge
        It has more than is read.
    UnreadableFile
        It is no MusicXML, is broken, or is unsafe.
    EmptyScore
        It has no bars.
    UnknownPart
        No line is called so.
    """
    root = read_tree(unpacked(data, file) if is_packed(data) else data, file)
    if root.tag not in ROOTS:
        what = f"the file is no score: it begins with <{root.tag[:40]}>, not <score-partwise>"
        raise UnreadableFile(what, file, EXPORT_AGAIN)
    left = LeftOut()
    parts = [read_part(raw, measures, file, left) for raw, measures in _parts(root, file)]
    lines, weights = lines_of(parts)
    chosen = best_line(lines, weights, part, file)
    chords = chord_part(parts, chosen.part)
    bars = tuple(lead_bars(parts, chosen, chords, left))
    others = _others(lines, chosen, any(bar.chords for bar in bars))
    feel = next((bar.feel for each in parts for bar in each.bars[:1] if bar.feel), "")
    sheet = LeadSheet(_title(root), bars, _by(root), feel, (*others, *left.sentences()))
    return ReadScore(sheet, lines, chosen)


def _parts(root: Element, file: str) -> list[tuple[RawPart, list[Element]]]:
    """Each part with its bars; bars that hold their parts are turned round."""
    listed = root.findall("part-list/score-part")
    names = {_id(each, at): plain_line(text_at(each, "part-name")) for at, each in enumerate(listed)}
    found: dict[str, list[Element]] = {}
    if root.tag == "score-partwise":
        for at, part in enumerate(root.findall("part")):
            found.setdefault(_id(part, at), []).extend(part.findall("measure"))
    else:
        for measure in root.findall("measure"):
            for at, part in enumerate(measure.findall("part")):
                part.attrib = {**part.attrib, **measure.attrib}
                found.setdefault(_id(part, at), []).append(part)
    _check(found, file)
    return [(RawPart(part, names.get(part) or part), bars) for part, bars in found.items()]


def _id(part: Element, at: int) -> str:
    named = part.get("id", "")
    return named if 0 < len(named) <= LONGEST_ID else f"P{at + 1}"


def _check(found: dict[str, list[Element]], file: str) -> None:
    if not any(found.values()):
        raise EmptyScore("the score has no bars", file, "Export it again with its music")
    bars = max(len(bars) for bars in found.values())
    if bars > MOST_BARS:
        raise TooLarge(f"the score has {bars} bars; {MOST_BARS} are read", file, "Export one song alone")
    if len(found) > MOST_PARTS:
        what = f"the score has {len(found)} parts; {MOST_PARTS} are read"
        raise TooLarge(what, file, "Export the tune's part alone")


def _title(root: Element) -> str:
    for path in ("work/work-title", "movement-title"):
        title = plain_line(text_at(root, path))
        if title:
            return title
    for credit in root.findall("credit"):
        if text_at(credit, "credit-type") == "title":
            return plain_line(" ".join(words.text or "" for words in credit.findall("credit-words")))
    return ""


def _by(root: Element) -> str:
    creators = root.findall("identification/creator")
    first = [each for each in creators if each.get("type") == "composer"] or creators
    return plain_line(first[0].text or "") if first else ""


def _others(lines: Sequence[ScorePart], chosen: ScorePart, has_chords: bool) -> list[str]:
    """Which lines are left out, and that there are no chords."""
    told = [
        f"'{line.name}' ({line.key}) is left out: {line.notes} notes"
        for line in lines
        if line is not chosen and line.notes
    ]
    if len(told) > MOST_TOLD:
        told = [*told[:MOST_TOLD], f"{len(told) - MOST_TOLD} more lines are left out"]
    return told if has_chords else [*told, "the score has no chord symbols"]
