"""What pages load comes from us alone, unchanged."""

import hashlib
import json
import re
from importlib.resources import files

STATIC = files("fifthwise.web") / "static"


def test_vendored_files_are_what_was_published():
    """Each has its version, its licence and the sum that the registry's file had."""
    listed = json.loads((STATIC / "vendor" / "vendor.json").read_text())
    found = {file.name for file in (STATIC / "vendor").iterdir() if file.name.endswith((".js", ".css"))}
    assert set(listed) == found
    for name, told in listed.items():
        assert hashlib.sha256((STATIC / "vendor" / name).read_bytes()).hexdigest() == told["sha256"]
        assert (STATIC / "vendor" / told["licence"].split(", ")[1]).is_file()


def test_a_page_loads_only_what_is_served(client):
    """Every style, script and font that a page names is there, and may be kept for good."""
    html = client.get("/songs/1").text
    named = re.findall(r'(?:href|src)="(/static/[^"]+)"', html)
    assert len(named) > 5
    for address in named:
        answer = client.get(address)
        assert answer.status_code == 200
        assert "immutable" in answer.headers["cache-control"]


def test_only_static_files_can_be_asked_for(client):
    """No path leads out of the folder, and an old mark is no longer served."""
    mark = re.search(r"/static/([0-9a-f]+)/", client.get("/songs").text)[1]
    for path in ("../app.py", "%2e%2e/app.py", "..%5capp.py", "vendor", "nothing.css", "chart.css%00"):
        assert client.get(f"/static/{mark}/{path}").status_code == 404
    assert client.get("/static/000000000000/chart.css").status_code == 404
    assert client.get(f"/static/{mark}/chart.css").status_code == 200
