"""Names as they are printed: ♭ and ♯ for the b and # of plain text.

Only names that the theory wrote go through here; a user's own words are left as they are.
"""

import re

from fifthwise.chart import DEFAULT_TEMPO, Chart
from fifthwise.theory import Degree, Key, NoteName, SpelledPitch

__all__ = ["printed", "printed_key", "printed_prose", "printed_tempo"]

# A note or a minor key inside a sentence, with its accidental: Bb, F#4, Ebb, Bbm; never the b of a word.
NAME_IN_PROSE = re.compile(r"\b([A-G])(bb|##|b|#)(?=m?(?![A-Za-z]))")


def printed(name: NoteName | SpelledPitch | Degree | str) -> str:
    """Print a note, a pitch, a degree or a chord symbol with true accidentals."""
    text = str(name)
    return text.replace("bb", "𝄫").replace("##", "𝄪").replace("b", "♭").replace("#", "♯")


def printed_key(key: Key) -> str:
    """Print a key's name: ``E♭``, ``C minor``; the mode's letters stay."""
    name = printed(key.tonic)
    return name if key.mode == "major" else f"{name} {key.mode}"


def printed_prose(sentence: str) -> str:
    """Print a sentence of ours: note names with true accidentals, and a true apostrophe."""
    return NAME_IN_PROSE.sub(lambda match: match[1] + printed(match[2]), sentence).replace("'", "’")


def printed_tempo(chart: Chart) -> str:
    """Print a song's tempo in felt beats a minute; ``about 100`` where the song does not say."""
    return f"about {float(DEFAULT_TEMPO):g}" if chart.tempo is None else f"{float(chart.tempo):g}"
