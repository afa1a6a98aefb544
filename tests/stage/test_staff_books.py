"""Everyone's book with tunes on a staff, for those whose instrument plays tunes."""

from io import BytesIO

from pypdf import PdfReader

from fifthwise.chart import parse
from fifthwise.evening import read_evening
from fifthwise.stage import books, plan
from tests.stage.test_tonight import NO_TUNE, TUNE

EVENING = """
evening: Small night
players:
  Ines: {instrument: fiddle}
  Oskar: {instrument: guitar}
songs:
  - {chart: a}
  - {chart: b}
"""


def pages(*, staff):
    """The pages of each player's book."""
    tonight = plan(read_evening(EVENING), {"a": parse(TUNE), "b": parse(NO_TUNE)})
    made = {output.path: output for output in books(tonight, staff=staff) if output.path.startswith("books/")}
    return {path: len(PdfReader(BytesIO(output.make())).pages) for path, output in made.items()}


def test_only_tunes_of_those_who_play_them_are_put_on_a_staff():
    """The fiddle gets a page more for the song with a tune; the guitar does not."""
    without, more = pages(staff=False), pages(staff=True)
    assert without.keys() == more.keys()
    assert {path: more[path] - without[path] for path in more} == {
        "books/ines-fiddle.pdf": 1,
        "books/oskar-guitar.pdf": 0,
    }
