"""What a self-contained page carries: its templates, its style sheet and its fonts, read from the package."""

from base64 import b64encode
from functools import cache
from importlib.resources import files

from jinja2 import Environment, FunctionLoader

from fifthwise.page.html_bar import has_pickup, row_bars
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
    made.filters |= {"bars": row_bars, "has_pickup": has_pickup, "words_joined": with_pickup_words}
    return made


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
