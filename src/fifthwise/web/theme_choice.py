"""The choice between paper and stage."""

from urllib.parse import urlsplit

from starlette.requests import Request
from starlette.responses import RedirectResponse
from starlette.routing import Route

from fifthwise.web.answers import form_of, go
from fifthwise.web.theme import COOKIE, THEMES

__all__ = ["routes"]

YEAR_S = 365 * 24 * 3600


async def choose(request: Request) -> RedirectResponse:
    """Keep the choice and go back to where it was made."""
    form = await form_of(request)
    answer = go(_own_path(form.get("back", "")))
    if form.get("theme") in THEMES:
        answer.set_cookie(COOKIE, form["theme"], max_age=YEAR_S, httponly=True, samesite="strict")
    else:
        answer.delete_cookie(COOKIE)
    return answer


def _own_path(text: str) -> str:
    """A path of ours with its query; anything that leads elsewhere becomes the first page."""
    parts = urlsplit(text.replace("\\", "/"))
    own = not parts.scheme and not parts.netloc and parts.path.startswith("/") and parts.path[1:2] != "/"
    return f"{parts.path}{'?' if parts.query else ''}{parts.query}" if own else "/"


routes = [Route("/theme", choose, methods=["POST"], name="theme")]
