"""What a self-contained page carries: its templates, its style sheet and its fonts, read from the package."""

from base64 import b64encode
from collections.abc import Callable
from functools import cache, lru_cache
from importlib.resources import files

from jinja2 import Environment, FunctionLoader
from markupsafe import Markup

from fifthwise.page.html_bar import SlotView, has_pickup, row_bars
from fifthwise.page.layout_tune import SheetNote
from fifthwise.page.text_words import with_pickup_words

__all__ = ["environment", "font_file", "page_style", "screen_style"]

FACES = (
    ("Atkinson Hyperlegible Next", 400, "AtkinsonHyperlegibleNext-Regular"),
    ("Atkinson Hyperlegible Next", 700, "AtkinsonHyperlegibleNext-Bold"),
    ("Atkinson Hyperlegible Next", 800, "AtkinsonHyperlegibleNext-ExtraBold"),
    ("fifthwise Signs", 400, "FifthwiseSigns-Regular"),
    ("fifthwise Signs", 700, "FifthwiseSigns-Bold"),
)
FACE = (
    '@font-face{{font-family:"{}";font-weight:{};font-display:block;'
    'src:url(data:font/woff2;base64,{}) format("woff2")}}'
)


@cache
def environment() -> Environment:
    """The templates; whatever is put into them is escaped."""
    made = Environment(loader=FunctionLoader(_text), autoescape=True, trim_blocks=True, lstrip_blocks=True)
    made.filters |= {
        "bars": row_bars,
        "drawn_slot": _placed_slot,
        "drawn_tune": _drawn_tune,
        "has_pickup": has_pickup,
        "words_joined": with_pickup_words,
    }
    return made


def _placed_slot(slot: SlotView, at: str) -> Markup:
    """A slot that says where in the chart it is written: section, bar and slot."""
    return Markup(f'<span data-at="{at}"') + _drawn_slot(slot)[len("<span") :]


@lru_cache(maxsize=4096)
def _drawn_slot(slot: SlotView) -> Markup:
    """Draw a slot once: it stands in many bars of its song, and again on the narrow screen."""
    return _macro("slot")(slot)


@lru_cache(maxsize=1024)
def _drawn_tune(notes: tuple[tuple[SheetNote, int], ...]) -> Markup:
    """Draw a bar's tune once, as a slot."""
    return _macro("tune")(notes)


@cache
def _macro(name: str) -> Callable[..., Markup]:
    macro: Callable[..., Markup] = getattr(environment().get_template("sheet.html").module, name)
    return macro


@cache
def page_style() -> str:
    """The whole style sheet of a self-contained page, the fonts in it."""
    return "".join(_face(*face) for face in FACES) + screen_style() + _text("page.css")


@cache
def screen_style() -> str:
    """The colours, and the chart's style: what every page with a chart shares; no fonts."""
    return _text("tokens.css") + _text("chart.css")


def font_file(name: str) -> bytes:
    """One of our web fonts, as in ``AtkinsonHyperlegibleNext-Bold.woff2``."""
    return (files("fifthwise.page") / "fonts" / name).read_bytes()


def _face(family: str, weight: int, file: str) -> str:
    return FACE.format(family, weight, b64encode(font_file(f"{file}.woff2")).decode("ascii"))


def _text(name: str) -> str:
    return (files("fifthwise.page") / name).read_text(encoding="utf-8")
