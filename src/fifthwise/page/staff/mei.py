"""A staff written as MEI 5, the Music Encoding Initiative's format (music-encoding.org, guidelines 5.0)."""

from collections.abc import Collection, Iterator, Sequence
from xml.sax.saxutils import escape

from fifthwise.page.layout_bar import Figure
from fifthwise.page.layout_view import Clef
from fifthwise.page.staff.accidentals import Accidentals
from fifthwise.page.staff.element import element, fit_for_xml
from fifthwise.page.staff.mei_bar import BarMaker
from fifthwise.page.staff.model import Staff, StaffBar
from fifthwise.theory import Key, Metre

__all__ = ["staff_mei"]

HEAD = (
    '<?xml version="1.0" encoding="UTF-8"?>'
    '<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc><titleStmt>'
    "<title>{title}</title></titleStmt><pubStmt/></fileDesc></meiHead><music><body><mdiv><score>"
)
TAIL = "</section></score></mdiv></body></music></mei>"
CLEFS: dict[Clef, dict[str, str | int]] = {
    "treble": {"clef_shape": "G", "clef_line": 2},
    "treble-8": {"clef_shape": "G", "clef_line": 2, "clef_dis": 8, "clef_dis_place": "below"},
    "alto": {"clef_shape": "C", "clef_line": 3},
    "tenor": {"clef_shape": "C", "clef_line": 4},
    "bass": {"clef_shape": "F", "clef_line": 4},
}
WIDER = "132%"  # our chords are bold and wider than what Verovio measures
FEW = 2  # silent bars that are still written one by one


def staff_mei(staff: Staff, breaks: Collection[int] = ()) -> str:
    """Write a staff as MEI.

    Parameters
    ----------
    breaks : collection of int
        The bars, from 0, that begin a system; each system is a page of its own.
    """
    title = escape(fit_for_xml(staff.title))
    return HEAD.format(title=title) + "".join(_score(staff, breaks)) + TAIL


def _score(staff: Staff, breaks: Collection[int]) -> Iterator[str]:
    first = staff.bars[0]
    maker = BarMaker(staff.clef, Accidentals(first.key))
    lines = element("staffDef", n=1, lines=5, **CLEFS[staff.clef])
    yield element("scoreDef", element("staffGrp", lines), **_key(first.key), **_metre(first.metre))
    yield "<section>"
    signs = tuple(_signs(staff.bars, breaks))
    layers = {at: _layer(staff.bars, at, count, maker) for at, count in signs}
    ending = False
    for at, count in signs:
        bar, last = staff.bars[at], staff.bars[at + count - 1]
        if ending and bar.endings:
            yield "</ending>"
        if at in breaks:
            yield "<pb/>"
        yield _changes(staff.bars[at - 1] if at else first, bar)
        if bar.endings:
            yield _ending(bar)
            ending = True
        yield _measure(
            staff.bars, at, count, layers[at] + "".join(_over(bar, last, at, count)) + maker.hung.of[at]
        )
        if ending and last.ends_ending:
            yield "</ending>"
            ending = False
    yield "</ending>" * ending


def _signs(bars: Sequence[StaffBar], breaks: Collection[int]) -> Iterator[tuple[int, int]]:
    """The bars that begin a sign, and how many it stands for: one, or several silent ones."""
    at = 0
    while at < len(bars):
        count = _counted(bars, at, breaks)
        yield at, count
        at += count


def _layer(bars: Sequence[StaffBar], at: int, count: int, maker: BarMaker) -> str:
    layer = element("multiRest", num=count) if count > 1 else maker.layer(bars[at], at)
    return element("staff", element("layer", layer, n=1), n=1)


def _ending(bar: StaffBar) -> str:
    numbers = " ".join(f"{number}." for number in bar.endings)
    return f'<ending n="{numbers}" lendsym="angledown">'


def _counted(bars: Sequence[StaffBar], at: int, breaks: Collection[int]) -> int:
    """How many bars are written as one sign: silent bars with nothing between them."""
    count = 0
    while at + count < len(bars) and _is_plain(bars[at + count]):
        if count and (at + count in breaks or not _follows(bars[at + count - 1], bars[at + count])):
            break
        count += 1
    return count if count > FEW else 1


def _is_plain(bar: StaffBar) -> bool:
    return bar.silent and not bar.pickup


def _follows(before: StaffBar, bar: StaffBar) -> bool:
    """Whether a bar goes on where the one before ends, with no sign at the bar line."""
    ends = before.repeat_end or before.ends_ending or before.double_bar or before.told
    begins = bar.repeat_start or bar.endings or bar.opens or bar.sign
    return not ends and not begins and (before.metre, before.key) == (bar.metre, bar.key)


def _changes(before: StaffBar, bar: StaffBar) -> str:
    key = _key(bar.key) if bar.key.signature != before.key.signature else {}
    metre = _metre(bar.metre) if bar.metre != before.metre else {}
    return element("scoreDef", **key, **metre) if key or metre else ""


def _key(key: Key) -> dict[str, str | int]:
    count = key.signature
    return {"keysig": f"{abs(count)}{'s' if count > 0 else 'f'}" if count else "0"}


def _metre(metre: Metre) -> dict[str, str | int]:
    return {"meter_count": metre.count, "meter_unit": metre.unit}


def _measure(bars: Sequence[StaffBar], at: int, count: int, content: str) -> str:
    bar, last = bars[at], bars[at + count - 1]
    lines = {"right": _right(last, bars[at + count] if at + count < len(bars) else None)}
    if bar.repeat_start:
        lines["left"] = "rptstart"
    if bar.pickup or bar.length != bar.metre.length:
        lines["metcon"] = "false"
    return element("measure", content, xml_id=f"m{at}", **lines)


def _right(bar: StaffBar, then: StaffBar | None) -> str:
    if bar.repeat_end:
        return "rptend"
    if then is None:
        return "end"
    return "dbl" if bar.double_bar or then.opens else "single"


def _over(bar: StaffBar, last: StaffBar, at: int, count: int) -> Iterator[str]:
    """What stands over a bar: its chords, unless several silent bars are one; its sign; what is said."""
    beat = bar.metre.unit
    for place, chord in enumerate(bar.chords if count == 1 else ()):
        stamp = float(chord.at * beat / 4) + 1
        yield element(
            "harm",
            _figure(chord.figure),
            xml_id=f"h{at}-{place}",
            staff=1,
            tstamp=f"{stamp:g}",
            place="above",
        )
    if bar.sign:
        yield element("repeatMark", staff=1, tstamp="1", func=bar.sign, place="above")
    if last.told:
        end = float(last.length * beat / 4) + 1
        text = element("rend", escape(fit_for_xml(last.told)), halign="right")
        yield element("dir", text, staff=1, tstamp=f"{end:g}", place="above", type="told")


def _figure(figure: Figure) -> str:
    """A chord in one line of text, with what is raised."""
    main = escape(f"{figure.sign}{figure.root}{figure.after}")
    raised = element("rend", escape(figure.raised), rend="sup") if figure.raised else ""
    whole = main + raised + (escape(f"/{figure.bass}") if figure.bass else "")
    return element("rend", whole, fontsize=WIDER)
