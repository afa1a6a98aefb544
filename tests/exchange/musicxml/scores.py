"""Made-up scores for tests, put together from their elements."""

from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import music21

from fifthwise.exchange.musicxml import read_musicxml

# Read where they lie, never copied: their licence is not stated.
CORPUS = Path(music21.__file__).parent / "corpus"
ATTRIBUTES = (
    "<divisions>12</divisions><key><fifths>0</fifths></key>"
    "<time><beats>4</beats><beat-type>4</beat-type></time>"
)
CONTAINER = (
    '<container><rootfiles><rootfile full-path="{name}" media-type="application/vnd.recordare.musicxml+xml"/>'
    "</rootfiles></container>"
)


def attributes(more="", *, held=ATTRIBUTES):
    """What holds from a bar on."""
    return f"<attributes>{held}{more}</attributes>"


def note(name, quarters=1, more="", *, voice="1", notations="", before=""):
    """A note such as ``F#4``, or ``rest``, with 12 divisions a quarter."""
    length = f"<duration>{round(quarters * 12)}</duration>" if quarters else ""
    if name == "rest":
        what = "<rest/>"
    else:
        alter = name[1:-1].count("#") - name[1:-1].count("b")
        what = f"<pitch><step>{name[0]}</step><alter>{alter}</alter><octave>{name[-1]}</octave></pitch>"
    noted = f"<notations>{notations}</notations>" if notations else ""
    return f"<note>{before}{what}{length}<voice>{voice}</voice>{noted}{more}</note>"


def harmony(root, kind="major", more=""):
    """A chord in letters."""
    alter = root.count("#") - root.count("b")
    sign = f"<root-alter>{alter}</root-alter>" if alter else ""
    step = f"<root><root-step>{root[0]}</root-step>{sign}</root>"
    return f"<harmony>{step}<kind>{kind}</kind>{more}</harmony>"


def bar(*content, number="", implicit=False):
    """A measure; it is numbered by its place."""
    said = ' implicit="yes"' if implicit else ""
    return f'<measure number="{number}"{said}>{"".join(content)}</measure>'


def score(*bars, name="Tune", more="", head=""):
    """A score of one part and, after it, the parts in ``more``: pairs of a name and bars."""
    parts = [(name, bars), *(more or ())]
    listed = "".join(
        f'<score-part id="P{at}"><part-name>{name}</part-name></score-part>'
        for at, (name, _) in enumerate(parts, 1)
    )
    music = "".join(f'<part id="P{at}">{"".join(bars)}</part>' for at, (_, bars) in enumerate(parts, 1))
    return f'<score-partwise version="4.0">{head}<part-list>{listed}</part-list>{music}</score-partwise>'


def read(text, part=None):
    """Read a score under the name ``song.musicxml``."""
    return read_musicxml(text.encode() if isinstance(text, str) else text, "song.musicxml", part=part)


def sheet(*bars, **more):
    """The lead sheet of some bars of one part."""
    return read(score(*bars, **more)).sheet


def packed(text, name="score.musicxml", container=CONTAINER):
    """A score in a zip."""
    file = BytesIO()
    with ZipFile(file, "w") as archive:
        if container:
            archive.writestr("META-INF/container.xml", container.format(name=name))
        archive.writestr(name, text)
    return file.getvalue()
