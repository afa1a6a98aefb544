"""The page *Versions*: every text that a song had, compared and brought back."""

from collections.abc import Mapping
from datetime import datetime, timedelta

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import compare, restore, song, versions
from fifthwise.web.answers import book_of, go, show
from fifthwise.web.editing import version_in

__all__ = ["routes", "when"]

SHOWN = 3  # lines alike around a change


def list_versions(request: Request) -> Response:
    """Every version, the newest first."""
    song_id = request.path_params["song_id"]
    row = song(book_of(request), song_id).row
    now = datetime.now().astimezone()
    rows = [
        (each.version, when(each.saved_at, now), each.saved_at)
        for each in versions(book_of(request), song_id)
    ]
    return show(request, "versions.html", {"song": row, "versions": rows[::-1]})


def compare_versions(request: Request) -> Response:
    """Two versions line by line; without a choice, the newest with the one before it."""
    song_id = request.path_params["song_id"]
    row = song(book_of(request), song_id).row
    one, other = _two(request.query_params, row.version)
    lines = compare(book_of(request), song_id, one, other)
    context = {
        "song": row,
        "one": one,
        "other": other,
        "parts": _parts([(line.kind, line.text, line.one, line.other) for line in lines]),
        "less": sum(line.kind == "less" for line in lines),
        "more": sum(line.kind == "more" for line in lines),
    }
    return show(request, "compare.html", context)


def _two(asked: Mapping[str, str], newest: int) -> tuple[int, int]:
    other = version_in(asked, "other") or newest
    return version_in(asked, "one") or max(1, other - 1), other


Row = tuple[str, str, int | None, int | None]


def _parts(lines: list[Row]) -> list[int | Row]:
    """The lines near a change, and how many alike are left out between them."""
    near = {
        place + step
        for place, line in enumerate(lines)
        if line[0] != "same"
        for step in range(-SHOWN, SHOWN + 1)
    }
    parts: list[int | Row] = []
    for place, line in enumerate(lines):
        if place in near:
            parts.append(line)
        elif parts and isinstance(parts[-1], int):
            parts[-1] += 1
        else:
            parts.append(1)
    return parts


async def restore_version(request: Request) -> Response:
    """Save an earlier text as the newest, and go to the song."""
    song_id, version = (request.path_params[name] for name in ("song_id", "version"))
    await run_in_threadpool(restore, book_of(request), song_id, version)
    return go(f"/songs/{song_id}")


def when(saved_at: datetime, now: datetime) -> str:
    """A moment in plain words, in the time zone of ``now``."""
    here = saved_at.astimezone(now.tzinfo)
    clock = f"{here:%H:%M}"
    days = (now.date() - here.date()) // timedelta(days=1)
    if days in (0, 1):
        return f"{'today' if days == 0 else 'yesterday'} at {clock}"
    return f"{here:%A} {here.day} {here:%B} {here.year} at {clock}"


routes = [
    Route("/songs/{song_id:int}/versions", list_versions, name="versions"),
    Route("/songs/{song_id:int}/versions/compare", compare_versions, name="compare_versions"),
    Route(
        "/songs/{song_id:int}/versions/{version:int}/restore",
        restore_version,
        methods=["POST"],
        name="restore_version",
    ),
]
