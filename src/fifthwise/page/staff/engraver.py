"""Verovio at work: MEI in, a page of SVG for each system out.

A toolkit is no one's but its thread's: shared, it mixes one tune into another.
"""

import threading
from pathlib import Path
from typing import Any

from fifthwise.errors import FifthwiseError

__all__ = ["FONT", "SPACE", "EngravingFault", "engraved", "loaded", "unbroken"]

FONT = "Leipzig"
UNIT = 9  # half a staff space
SPACE = 2 * UNIT  # a staff space in the units of a page's width; a drawing's are ten to one
TALL = 60_000
OPTIONS = {
    "adjustPageHeight": True,
    "breaks": "encoded",
    "font": FONT,
    "footer": "none",
    "header": "none",
    "harmDist": 1.4,
    "lyricSize": 5.2,
    "lyricTopMinMargin": 3.0,
    "lyricWordSpace": 2.0,
    "minLastJustification": 0.35,
    "mnumInterval": 0,
    "pageHeight": TALL,
    "pageMarginBottom": 0,
    "pageMarginLeft": 0,
    "pageMarginRight": 0,
    "pageMarginTop": 0,
    "staffLineWidth": 0.19,
    "stemWidth": 0.23,
    "smuflTextFont": "none",
    "spacingLinear": 0.25,
    "spacingNonLinear": 0.58,
    "svgRemoveXlink": True,
    "svgViewBox": True,
    "unit": UNIT,
    "xmlIdSeed": 5,
}


class EngravingFault(FifthwiseError):
    """A tune that could not be engraved."""


_threads = threading.local()


def engraved(mei: str, width: int) -> tuple[str, ...]:
    """Engrave MEI: the SVG of each of its pages.

    Parameters
    ----------
    width : int
        Of a system, of which a staff space is `SPACE`.

    Raises
    ------
    EngravingFault
        Verovio could not read it.
    """
    toolkit = loaded(mei, {"breaks": "encoded", "pageWidth": width})
    return tuple(toolkit.renderToSVG(page + 1) for page in range(toolkit.getPageCount()))


def unbroken(mei: str) -> str:
    """Engrave MEI as one system, each bar as wide as it wants to be."""
    return str(loaded(mei, {"breaks": "none"}).renderToSVG(1))


def loaded(mei: str, options: dict[str, Any]) -> Any:
    """The toolkit of the thread with a tune in it, under some options more than ours."""
    toolkit = _toolkit()
    toolkit.setOptions({**OPTIONS, **options})
    if not toolkit.loadData(mei):
        raise EngravingFault(
            "its tune cannot be set on a staff", "staff", "Show the numbers instead, and report it"
        )
    return toolkit


def _toolkit() -> Any:
    found = getattr(_threads, "toolkit", None)
    if found is None:
        import verovio

        found = verovio.toolkit(False)
        found.setResourcePath(str(Path(verovio.__file__).parent / "data"))
        _threads.toolkit = found
    return found
