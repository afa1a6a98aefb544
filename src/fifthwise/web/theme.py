"""Paper or stage: the look that a visitor chose, kept in a cookie."""

from typing import Literal, cast

from starlette.requests import Request

__all__ = ["COOKIE", "THEMES", "Theme", "theme_of"]

Theme = Literal["paper", "stage"]
THEMES = ("paper", "stage")
COOKIE = "theme"


def theme_of(request: Request) -> Theme | None:
    """The theme that was chosen; ``None`` follows the device."""
    chosen = request.cookies.get(COOKIE)
    return cast(Theme, chosen) if chosen in THEMES else None
