"""Scripts, styles and fonts, under an address that changes with them: a browser may keep them for good."""

import hashlib
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.page import font_file, screen_style

__all__ = ["static_address", "static_route"]

KEPT = {"cache-control": "public, max-age=31536000, immutable"}
FONTS = (
    "AtkinsonHyperlegibleNext-Regular",
    "AtkinsonHyperlegibleNext-SemiBold",
    "AtkinsonHyperlegibleNext-Bold",
    "AtkinsonHyperlegibleNext-ExtraBold",
    "AtkinsonHyperlegibleMono-Regular",
    "FifthwiseSigns-Regular",
    "FifthwiseSigns-Bold",
)
KINDS = {
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "json": "application/json",
    "svg": "image/svg+xml",
    "txt": "text/plain; charset=utf-8",
    "woff2": "font/woff2",
}


@cache
def _served() -> dict[str, bytes]:
    """Every static file by its name below the address; nothing else can be asked for."""
    root = files("fifthwise.web") / "static"
    served = dict(_below(root, ""))
    served |= {f"fonts/{font}.woff2": font_file(f"{font}.woff2") for font in FONTS}
    served["chart.css"] = screen_style().encode()
    return served


def _below(folder: Traversable, path: str) -> Iterator[tuple[str, bytes]]:
    for entry in folder.iterdir():
        if entry.is_dir():
            yield from _below(entry, f"{path}{entry.name}/")
        elif entry.name.rpartition(".")[2] in KINDS:
            yield path + entry.name, entry.read_bytes()


@cache
def _mark() -> str:
    """What all of them together are: one mark for all, so that styles and modules name each other plainly."""
    digest = hashlib.sha256()
    for name, content in sorted(_served().items()):
        digest.update(name.encode() + b"\0" + content)
    return digest.hexdigest()[:12]


def static_address(name: str) -> str:
    """Where a static file is served; a name that is not there is a programmer's slip."""
    assert name in _served(), name
    return f"/static/{_mark()}/{name}"


def static_route() -> Route:
    """The route that serves them."""
    return Route("/static/{mark}/{name:path}", _serve, name="static")


def _serve(request: Request) -> Response:
    name = request.path_params["name"]
    content = _served().get(name)
    if content is None or request.path_params["mark"] != _mark():
        raise HTTPException(404)
    return Response(content, media_type=KINDS[name.rpartition(".")[2]], headers=KEPT)
