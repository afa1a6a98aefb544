import re
from pathlib import Path

import pytest

from fifthwise.chart import write_chart
from fifthwise.exchange import read_letter_chart
from fifthwise.theory import Numbering, read_key

PAGE = Path(__file__).parents[2] / "docs" / "import.md"
BLOCK = re.compile(r"^```(\w+)([^\n]*)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
BLOCKS = BLOCK.findall(PAGE.read_text(encoding="utf-8"))
PAIRS = list(zip(BLOCKS[::2], BLOCKS[1::2], strict=True))


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: pair[0][2].split("\n")[0])
def test_an_example_gives_what_the_page_shows(pair):
    """Each sheet in letters stands before the chart, the faults or the notices that it gives."""
    (kind, said, sheet), (wanted, _, shown) = pair
    assert kind in ("letters", "words")
    settings = dict(item.split("=") for item in said.split())
    numbering = Numbering(settings.get("minor", "from-six"))
    reading = read_letter_chart(sheet, "song.txt", read_key(settings.get("key", "G")), numbering=numbering)
    if wanted == "chart":
        assert reading.faults == ()
        assert bool(reading.notices) == (kind == "words")
        assert write_chart(reading.chart) == shown
    else:
        told = reading.faults if wanted == "faults" else reading.notices
        assert "".join(f"{fault}\n" for fault in told) == shown


def test_the_page_has_its_examples():
    """Two charts, one with chords over its words, a faulty sheet, and one with a capo."""
    assert [wanted for _, (wanted, _, _) in PAIRS] == ["chart", "chart", "chart", "faults", "notices"]
