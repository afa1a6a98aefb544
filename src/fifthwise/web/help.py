"""The page *Help*: the project's own documents, with their charts drawn, the signs and the keyboard."""

import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from itertools import pairwise

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup, escape
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.chart import ChartFaults, parse
from fifthwise.page import chart_html, lay_out, signs_html
from fifthwise.web.answers import show

__all__ = ["TOPICS", "routes"]

NARROW = 2
ASIDE = re.compile(r"\s\(\[[^\]]*\]\(([a-z.-]+\.(?:md|json))\)\)")
LINK = re.compile(r"\[([^\]]*)\]\(([a-z.-]+\.(?:md|json)(?:#[a-z-]+)?)\)")


@dataclass(frozen=True, slots=True)
class Topic:
    """One page of help, made of a document of ours."""

    name: str
    title: str
    about: str


TOPICS = (
    Topic("chart-text", "Chart text", "How a song is written."),
    Topic("signs", "Signs", "What stands on a page, and what it means."),
    Topic("keyboard", "Keyboard", "Which keys do what."),
    Topic("voice", "A singer’s key", "How the key for a voice is found."),
    Topic("staff", "Staff", "A tune as notes, and what stands around them."),
    Topic("evening", "Evenings", "An evening as a file."),
    Topic("files", "Songs in and out", "What is read, what is asked, what goes out."),
    Topic("number-sheets", "Number sheets", "How numbers of other hands are read."),
    Topic("import", "Charts in letters", "How a chart in letters becomes numbers."),
    Topic("glossary", "Words", "The words that we use."),
)


@dataclass(frozen=True, slots=True)
class Document:
    """A document set for the screen, and its headings as (anchor, words)."""

    body: Markup
    headings: tuple[tuple[str, str], ...]


def list_topics(request: Request) -> Response:
    """All topics."""
    return show(request, "help.html", {"topics": TOPICS})


def show_topic(request: Request) -> Response:
    """One topic."""
    topic = next((each for each in TOPICS if each.name == request.path_params["topic"]), None)
    if topic is None:
        raise HTTPException(404)
    if topic.name == "keyboard":
        return show(request, "keyboard.html", {"topic": topic, "topics": TOPICS})
    return show(request, "topic.html", {"topic": topic, "topics": TOPICS, "document": document(topic.name)})


@cache
def document(name: str) -> Document:
    """A document's text as it is shown; what it draws is drawn once."""
    if name == "signs":
        return Document(signs_html(), ())
    text = _without_asides((files("fifthwise.web") / "help" / f"{name}.md").read_text(encoding="utf-8"))
    parser = _parser()
    tokens = parser.parse(text)
    headings = tuple(_headings(tokens))
    return Document(Markup(parser.renderer.render(tokens[3:], parser.options, {})), headings)


def _without_asides(text: str) -> str:
    """The text without links to documents that are no topic; in brackets they go altogether."""
    text = ASIDE.sub(lambda aside: aside[0] if _topic_of(aside[1]) else "", text)
    return LINK.sub(lambda link: link[0] if _topic_of(link[2]) else link[1], text)


def _topic_of(target: str) -> str | None:
    """The topic to which a link leads, if there is one."""
    name = target.partition(".md")[0]
    return next((topic.name for topic in TOPICS if topic.name == name), None)


def _parser() -> MarkdownIt:
    """Plain Markdown with tables; HTML in a document would be shown as text."""
    parser = MarkdownIt("commonmark", {"html": False}).enable("table")
    parser.add_render_rule("fence", _fence)
    parser.add_render_rule("link_open", _link)
    parser.add_render_rule(
        "table_open",
        lambda *_: (
            '<div class="wide-table" tabindex="0" role="group" aria-label="Table"><table class="list">'
        ),
    )
    parser.add_render_rule("table_close", lambda *_: "</table></div>")
    return parser


def _headings(tokens: list[Token]) -> list[tuple[str, str]]:
    """Give each second heading its anchor."""
    found = []
    for token, inline in pairwise(tokens):
        if token.type == "heading_open" and token.tag == "h2":
            anchor = "-".join("".join(c if c.isalnum() else " " for c in inline.content.lower()).split())
            token.attrSet("id", anchor)
            found.append((anchor, inline.content.replace("`", "")))
    return found


def _fence(_self: object, tokens: list[Token], place: int, *_: object) -> str:
    """A block of text; a whole chart is drawn under it."""
    token = tokens[place]
    text = Markup('<pre class="mono" tabindex="0">{}</pre>').format(token.content)
    return text + _drawn(token.content) if token.info == "chart" else text


def _drawn(text: str) -> Markup:
    try:
        chart = parse(text)
    except ChartFaults:
        return Markup("")
    drawn = chart_html(lay_out(chart), lay_out(chart, columns=NARROW))
    return Markup('<div class="drawn" role="group" aria-label="The page">{}</div>').format(drawn)


def _link(_self: object, tokens: list[Token], place: int, *_: object) -> str:
    """A link to another document leads to its topic."""
    target = str(tokens[place].attrGet("href"))
    name = _topic_of(target)
    return f'<a href="{escape(target if name is None else f"/help/{name}")}">'


routes = [
    Route("/help", list_topics, name="help"),
    Route("/help/{topic}", show_topic, name="topic"),
]
