"""The page of what the guard refuses, in the workbench's own frame."""

from fifthwise.web.guard import Refusal
from fifthwise.web.pages import environment

__all__ = ["refusal_page"]


def refusal_page(refusal: Refusal) -> str:
    """Set the page; it knows nothing of the request, which is not to be trusted."""
    page = environment().get_template("refused.html")
    return page.render(refusal=refusal, theme=None, here="/", may_change=False, is_guest=False)
