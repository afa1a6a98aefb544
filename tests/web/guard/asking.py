"""Requests put to an application as the server would, so that no client tidies them up first."""

import asyncio
from dataclasses import dataclass

HERE = ("127.0.0.1", 50000)
THERE = ("192.168.1.77", 50000)
LAN = "192.168.1.20:5151"


@dataclass
class Answer:
    """What came back; status 0 where nothing did."""

    status: int
    headers: dict[str, str]
    text: str
    messages: list


def ask(app, method="GET", path="/", headers=(), *, client=HERE, host="localhost:5151", **more):
    """Send one request and wait for its answer."""
    return asyncio.run(asked(app, method, path, headers, client=client, host=host, **more))


async def asked(
    app,
    method="GET",
    path="/",
    headers=(),
    *,
    client=HERE,
    host="localhost:5151",
    body=(b"",),
    query=b"",
    scheme="http",
    kind="http",
    pause_s=0.0,
    stays_s=5.0,
):
    """Send one request; ``body`` is its parts, with a pause before each, after which the client stays on."""
    named = [] if host is None else [("host", host)]
    scope = {
        "type": kind,
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "scheme": scheme,
        "path": path,
        "raw_path": path.encode("utf-8", "replace"),
        "query_string": query,
        "root_path": "",
        "headers": [(name.encode(), value.encode("latin-1")) for name, value in (*named, *headers)],
        "client": client,
        "server": ("127.0.0.1", 5151),
    }
    if kind == "http":
        scope["method"] = method
    parts = list(body)
    sent = []

    async def receive():
        if kind == "websocket":
            return {"type": "websocket.connect"}
        if not parts:
            await asyncio.sleep(stays_s)
            return {"type": "http.disconnect"}
        await asyncio.sleep(pause_s)
        part = parts.pop(0)
        return {"type": "http.request", "body": part, "more_body": bool(parts)}

    async def send(message):
        sent.append(message)

    await app(scope, receive, send)
    start = next((m for m in sent if m["type"] == "http.response.start"), {"status": 0, "headers": []})
    text = b"".join(m.get("body", b"") for m in sent if m["type"] == "http.response.body")
    found = {name.decode(): value.decode() for name, value in start["headers"]}
    return Answer(start["status"], found, text.decode(), sent)


async def fine(scope, receive, send):
    """An application that answers everything, so that what is refused was refused before it."""
    await send({"type": "http.response.start", "status": 200, "headers": []})
    await send({"type": "http.response.body", "body": b"fine"})
