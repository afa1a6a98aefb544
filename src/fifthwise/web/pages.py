"""The templates, and what every one of them may use."""

from collections.abc import Mapping
from functools import cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse

from fifthwise.page import printed, printed_key, printed_prose, printed_tempo
from fifthwise.web.guard import Visitor
from fifthwise.web.static_files import static_address
from fifthwise.web.theme import theme_of

__all__ = ["environment", "render"]


@cache
def environment() -> Environment:
    """The templates; whatever is put into them is escaped, and what is missing is an error."""
    made = Environment(
        loader=PackageLoader("fifthwise.web"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        auto_reload=False,
    )
    made.globals["static"] = static_address
    made.filters |= {"key": printed_key, "note": printed, "prose": printed_prose, "tempo": printed_tempo}
    return made


def render(
    request: Request,
    template: str,
    context: Mapping[str, Any],
    *,
    fragment: bool,
    status: int = 200,
    headers: Mapping[str, str] | None = None,
) -> HTMLResponse:
    """Set a template; a fragment is ``_name.html``, where there is one."""
    names = [f"_{template}", template] if fragment else [template]
    page = environment().select_template(names)
    visitor = getattr(request.state, "visitor", Visitor.OWNER)  # no guard: nobody else can ask
    seen = {
        "request": request,
        "theme": theme_of(request),
        "here": _here(request),
        "may_change": visitor.may_change,
        "is_guest": visitor is Visitor.GUEST,
    }
    return HTMLResponse(page.render({**seen, **context}), status, headers=headers)


def _here(request: Request) -> str:
    """The page's address on this site, to come back to."""
    return request.url.path + (f"?{request.url.query}" if request.url.query else "")
