import contextlib
import io
import re
from pathlib import Path

PAGE = Path(__file__).parents[2] / "docs" / "voice.md"


def test_the_example_on_the_page_prints_what_the_page_says():
    """The code of docs/voice.md runs, and its output stands below it."""
    blocks = re.findall(r"^```(\w*)\n(.*?)^```$", PAGE.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)
    (_, code), (_, told) = blocks
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        exec(code, {})
    assert out.getvalue() == told
