"""Requests refused: a status, and a short page that says why and what to do instead.

A page repeats nothing of the request, so that it cannot be made to carry somebody else's text.
"""

from collections.abc import Callable
from dataclasses import dataclass
from html import escape

from starlette.types import Scope, Send

__all__ = ["PageOf", "Refusal", "header_values", "plain_page", "refuse"]

# RFC 6455, 7.4.1: the close code for a broken rule.
POLICY_VIOLATION = 1008
PLAIN_PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>{title}</title></head>
<body><main><h1>{title}</h1><p>{words}</p></main></body></html>
"""


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a request is not answered.

    Parameters
    ----------
    status : int
        The status of RFC 9110, section 15.
    title : str
        What is wrong, without a full stop.
    words : str
        What to do instead, in whole sentences.
    headers : tuple of (str, str)
        Further headers of the answer.
    """

    status: int
    title: str
    words: str
    headers: tuple[tuple[str, str], ...] = ()


PageOf = Callable[[Refusal], str]


def plain_page(refusal: Refusal) -> str:
    """The page of a refusal, without style or script."""
    return PLAIN_PAGE.format(title=escape(refusal.title), words=escape(refusal.words))


async def refuse(scope: Scope, send: Send, refusal: Refusal, page: PageOf = plain_page) -> None:
    """Answer with a refusal; a socket is closed before it opens, which its client sees as 403."""
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": POLICY_VIOLATION, "reason": refusal.title})
        return
    body = page(refusal).encode()
    headers = [
        (b"content-type", b"text/html; charset=utf-8"),
        (b"content-length", str(len(body)).encode()),
        *((name.encode(), value.encode()) for name, value in refusal.headers),
    ]
    await send({"type": "http.response.start", "status": refusal.status, "headers": headers})
    await send({"type": "http.response.body", "body": b"" if scope["method"] == "HEAD" else body})


def header_values(scope: Scope, name: bytes) -> list[str]:
    """Every value of a request's header; ASGI names are in lower case."""
    return [value.decode("latin-1") for found, value in scope["headers"] if found.lower() == name]
