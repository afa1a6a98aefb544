"""Engraved systems as SVG: one under the other as one picture, or each by itself."""

from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

from fifthwise.page.layout_bar import Figure
from fifthwise.page.picture_svg import DARK, FONTS, element, number, rect
from fifthwise.page.staff.drawing import Drawing, Sign, Text
from fifthwise.page.staff.element import fit_for_xml
from fifthwise.page.staff.engrave import System
from fifthwise.page.staff.model import Staff
from fifthwise.page.staff.words import bars_words

__all__ = ["staff_svg", "system_svg"]

HEAD_HIGH = 620  # of a section's name, in a drawing's units, of which a staff space has 180
HEAD_BASE = 400
BETWEEN = 360
OVER = 90  # that our chords rise over Verovio's
MARGIN = 400
STYLES: dict[str, dict[str, str | float]] = {
    "number": {"font_size": 470, "font_weight": "600", "text_anchor": "middle"},
    "chord": {"font_size": 520, "font_weight": "800"},
    "ending": {"font_size": 360, "font_weight": "700"},
    "told": {"font_size": 360, "font_weight": "600", "text_anchor": "end"},
    "name": {"font_size": 460, "font_weight": "800"},
}


def system_svg(system: System, title: str) -> str:
    """One system as a picture of its own, without its section's name."""
    drawn = system.drawn
    moved = element("g", _drawn(drawn, ""), transform=f"translate(0 {OVER})")
    return _svg(drawn.width, drawn.height + OVER, title, "", [_defs([drawn], ""), moved])


def staff_svg(staff: Staff, systems: Sequence[System], name: str = "", *, alone: bool = False) -> str:
    """A staff as one picture: its systems under one another, sections under their names.

    Parameters
    ----------
    name : str
        Begins the names in it, so that several may stand on one page.
    alone : bool
        Whether it brings its own paper and colours, as a file does.
    """
    drawings = [system.drawn for system in systems]
    parts, y = [_defs(drawings, name)], 0.0
    for place, system in enumerate(systems):
        y += BETWEEN if place else 0
        if system.name:
            y += BETWEEN / 2 if place else 0
            parts.append(element("text", _escaped(system.name), x=0, y=y + HEAD_BASE, **STYLES["name"]))
            y += HEAD_HIGH
        parts.append(element("g", _drawn(system.drawn, name), transform=f"translate(0 {number(y + OVER)})"))
        y += system.drawn.height + OVER
    width = max(drawn.width for drawn in drawings)
    return _svg(width, y, f"Staff: {staff.title}", bars_words(staff.bars), parts, alone=alone)


def _svg(
    width: float, height: float, title: str, told: str, parts: Sequence[str], *, alone: bool = False
) -> str:
    named = element("title", _escaped(title)) + (element("desc", _escaped(told)) if told else "")
    edge = MARGIN if alone else 0
    at, wide, high = -edge, width + 2 * edge, height + 2 * edge
    paper = DARK + rect(at, at, wide, high, class_="paper", fill="#fff") if alone else ""
    return element(
        "svg", named + paper + "".join(parts), xmlns="http://www.w3.org/2000/svg",
        class_="fifthwise-picture" if alone else "staff", role="img",
        viewBox=f"{number(at)} {number(at)} {number(wide)} {number(high)}", width=wide / 20, height=high / 20,
        fill="currentColor", font_family=FONTS, **({"color": "#000"} if alone else {}),
    )  # fmt: skip


def _defs(systems: Sequence[Drawing], name: str) -> str:
    """The outlines of the signs that are drawn, at each size."""
    used = {(sign.code, sign.scale) for system in systems for sign in system.signs}
    outlines = {code: path for system in systems for code, path in system.outlines.items()}
    drawn = (
        element(
            "path", id=_sign_name(name, code, scale), transform=f"scale({number(scale)} {number(-scale)})",
            d=outlines[code],
        )
        for code, scale in sorted(used)
    )  # fmt: skip
    return element("defs", "".join(drawn))


def _sign_name(name: str, code: str, scale: float) -> str:
    return f"{name}{code}" if scale == 0.72 else f"{name}{code}-{round(scale * 100)}"


def _drawn(system: Drawing, name: str) -> str:
    return "".join(_parts(system, name))


def _parts(system: Drawing, name: str) -> Iterator[str]:
    lines = (
        element("path", d="".join(data), stroke_width=thick) for thick, data in sorted(system.lines.items())
    )
    yield element("g", "".join(lines), fill="none", stroke="currentColor")
    if system.beams:
        yield element("path", d="".join(system.beams))
    for data, thick in system.curves:
        yield element("path", d=data, stroke="currentColor", stroke_width=thick, stroke_linejoin="round")
    for x, y, radius in system.dots:
        yield element("circle", cx=x, cy=y, r=radius)
    yield "".join(_use(sign, name) for sign in system.signs if not sign.is_head)
    yield element("g", "".join(_use(sign, name) for sign in system.signs if sign.is_head), class_="heads")
    for style in dict.fromkeys(text.style for text in system.texts):
        words = (_text(text) for text in system.texts if text.style == style)
        yield element("g", "".join(words), class_=f"{style}s", **STYLES[style])


def _use(sign: Sign, name: str) -> str:
    return element("use", href=f"#{_sign_name(name, sign.code, sign.scale)}", x=sign.x, y=sign.y)


def _text(text: Text) -> str:
    content = _figure(text.content) if isinstance(text.content, Figure) else _escaped(text.content)
    return element("text", content, x=text.x, y=text.y)


def _figure(figure: Figure) -> str:
    main = escape(f"{figure.sign}{figure.root}{figure.after}")
    raised = element("tspan", escape(figure.raised), dy=-150, font_size=340) if figure.raised else ""
    if not figure.bass:
        return main + raised
    back = {"dy": 150} if raised else {}
    return main + raised + element("tspan", escape(f"/{figure.bass}"), **back)


def _escaped(text: str) -> str:
    return escape(fit_for_xml(text))
