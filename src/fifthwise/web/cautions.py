"""The page *Cautions*: loudness, strain and mains power."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.web.answers import show

__all__ = ["LONGEST_A_DAY", "routes"]

# dB(A) over the day and the longest time at it. NIOSH, recommended exposure limit: 85 dB(A) for 8 hours,
# half the time for every 3 dB more.
LONGEST_A_DAY = (
    (85, "8 hours"),
    (88, "4 hours"),
    (91, "2 hours"),
    (94, "1 hour"),
    (97, "30 minutes"),
    (100, "15 minutes"),
)


def cautions(request: Request) -> Response:
    """What can hurt, and who decides."""
    return show(request, "cautions.html", {"longest": LONGEST_A_DAY})


routes = [Route("/cautions", cautions, name="cautions")]
