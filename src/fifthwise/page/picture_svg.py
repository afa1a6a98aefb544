"""The few SVG elements that our pictures are made of, written as text.

A picture brings its paper with it: dark ink on light, or the other way round where the viewer is dark.
Everything that is drawn takes the colour of the ink (``currentColor``). Numbers are written with two places
at most, so that a picture has one text.
"""

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from fifthwise.voice import Ease

__all__ = ["DARK", "FONTS", "element", "hatching", "ink", "line", "number", "picture", "rect", "words"]

FONTS = (
    "'Atkinson Hyperlegible Next','fifthwise Signs','Segoe UI','Helvetica Neue',Arial,"
    "'DejaVu Sans',sans-serif"
)
MARGIN = 12
HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="{at} {at} {w} {h}" width="{w}" height="{h}" role="img"'
)
# Print takes the attributes alone, and is black on white.
DARK = (
    "<style>@media (prefers-color-scheme: dark){"
    ".fifthwise-picture{color:#f3ebdd}.paper{fill:#0e100f}.second{fill:#b5ac9c}"
    ".paper-line{stroke:#0e100f}"
    ".second-line{stroke:#b5ac9c}.rule-line{stroke:#7d776c}.hair-line{stroke:#3b3c38}}</style>"
)


def number(value: float) -> str:
    """A coordinate."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def element(tag: str, content: str = "", /, **attributes: str | float) -> str:
    """An element; ``stroke_width`` is written ``stroke-width``, and ``content`` is markup."""
    named = (
        f" {name.rstrip('_').replace('_', '-')}="
        + quoteattr(value if isinstance(value, str) else number(value))
        for name, value in attributes.items()
    )
    head = f"<{tag}{''.join(named)}"
    return f"{head}>{content}</{tag}>" if content else f"{head}/>"


def words(
    x: float, y: float, text: str, size: float = 15, *, weight: int = 400, anchor: str = "start", **more: str
) -> str:
    """A line of text on a baseline."""
    font = {"font_size": number(size), "font_weight": str(weight), "text_anchor": anchor}
    return element("text", escape(text), x=x, y=y, **font, **more)


def line(x1: float, y1: float, x2: float, y2: float, width: float = 1, **more: str) -> str:
    """A straight line."""
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke="currentColor", stroke_width=width, **more)


def rect(x: float, y: float, width: float, height: float, **more: str | float) -> str:
    """A rectangle."""
    return element("rect", x=x, y=y, width=width, height=height, **more)


def picture(width: float, height: float, title: str, text: str, parts: Iterable[str]) -> str:
    """A whole picture in its margins, with its name and its account in words for those who hear it."""
    width, height = width + 2 * MARGIN, height + 2 * MARGIN
    head = HEAD.format(at=number(-MARGIN), w=number(width), h=number(height))
    style = f' class="fifthwise-picture" font-family="{FONTS}" color="#000" fill="currentColor"'
    named = f"<title>{escape(title)}</title><desc>{escape(text)}</desc>"
    paper = rect(-MARGIN, -MARGIN, width, height, class_="paper", fill="#fff")
    return f'{head}{style} style="font-synthesis:none">{named}{DARK}{paper}{"".join(parts)}</svg>'


def hatching(name: str) -> str:
    """A pattern of slanted lines, to be drawn with under its name."""
    stroke = element("path", d="M0 6L6 0M-1 1L1 -1M5 7L7 5", stroke="currentColor", stroke_width=1.6)
    pattern = element("pattern", stroke, id=name, width=6, height=6, patternUnits="userSpaceOnUse")
    return element("defs", pattern)


def ink(ease: Ease, hatch: str) -> dict[str, str]:
    """How a bar is filled: solid where it is easy, hatched outside comfort, hollow out of reach."""
    fills: dict[Ease, str] = {"easy": "currentColor", "low": f"url(#{hatch})", "high": f"url(#{hatch})"}
    return {"fill": fills.get(ease, "none"), "stroke": "currentColor", "stroke_width": "1.4"}
