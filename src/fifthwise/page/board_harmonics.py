"""Natural harmonics on a fingerboard: where a string is touched, and the degree that sounds."""

from collections.abc import Iterator

from fifthwise.page.board_marks import degree_label
from fifthwise.page.board_neck import ACROSS, Neck
from fifthwise.page.board_signs import Ink, diamond
from fifthwise.page.board_view import BoardSubject, BoardView
from fifthwise.strings import HARMONICS
from fifthwise.theory import chord_degrees, note_of

__all__ = ["harmonic_signs"]

HIGHEST_PARTIAL = 4
HALF = 11.0


def harmonic_signs(subject: BoardSubject, view: BoardView, neck: Neck, ink: Ink) -> Iterator[str]:
    """The harmonics up to the fourth partial that sound a note of the chord, or else of the key."""
    numbering, key = subject.numbering, subject.key
    wanted = numbering.scale(key) if view.chord is None else chord_degrees(view.chord)
    by_sound = {note_of(degree, numbering.one(key)).pitch_class: degree for degree in wanted}
    for string, own in enumerate(subject.instrument.strings):
        for harmonic in HARMONICS:
            degree = by_sound.get((own.midi + harmonic.sounds) % 12)
            if degree is None or harmonic.partial > HIGHEST_PARTIAL or harmonic.touch > neck.stops + 0.5:
                continue
            x, y = neck.point(string, neck.along(harmonic.touch))
            aside = neck.size * ACROSS + HALF
            x, y = (x, y - aside) if neck.horizontal else (x + aside, y)
            yield diamond(x, y, HALF, degree_label(subject, degree), ink)
