"""A page's view for an instrument that is named on the command line."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fifthwise.page import PageView, Show

__all__ = ["view_for"]


def view_for(
    instrument: str | None,
    show: "Show | None",
    capo: int = 0,
    *,
    tune: bool | None = None,
    words: bool = False,
) -> "PageView":
    """What a page shows to an instrument's player; ``None`` is a page for everyone.

    Raises
    ------
    PartFault
        The instrument is not known.
    """
    from fifthwise.evening import part_of
    from fifthwise.page import PagePart, PageView

    if instrument is None:
        return PageView(show or "both", PagePart(capo=capo), tune=bool(tune), words=words)
    part = part_of(instrument)
    page_part = PagePart(
        part.label, part.written, capo, part.words, part.plays_bass, part.fingerboard, clef=part.clef
    )
    return PageView(show or part.show, page_part, tune=part.tune if tune is None else tune, words=words)
