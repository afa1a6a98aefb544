"""The anchors of a page: where tonight's 1, 5, 4 and 6- lie on the player's own instrument."""

from fifthwise.page.layout_figure import number_figure
from fifthwise.page.layout_model import AnchorBox, AnchorMark
from fifthwise.page.layout_reader import Reader
from fifthwise.page.text_signs import printed, printed_prose
from fifthwise.strings import (
    OPEN,
    Anchor,
    AnchorRoute,
    Instrument,
    anchor_routes,
    anchor_words,
    finger_words,
    instrument_of,
    position_name,
    stop_mm,
    string_name,
)
from fifthwise.theory import Key, NumberChord

__all__ = ["anchor_box"]

JOINED = ("start", "same finger")
BEYOND = 1  # semitones of string that are shown past the last place
NARROWEST = 7  # a fifth of string is shown at least, so that distances look alike from song to song


def anchor_box(key: Key, reader: Reader) -> AnchorBox | None:
    """The fastest way to the four chords of a key; ``None`` on a page without a fingerboard."""
    part = reader.view.part
    if not part.fingerboard:
        return None
    instrument = instrument_of(part.fingerboard)
    routes = anchor_routes(instrument, key, reader.numbering, level=part.level)
    if not routes:
        return None
    route = routes[0]
    furthest = max(NARROWEST, *(anchor.at.place.stop for anchor in route.anchors)) + BEYOND
    return AnchorBox(
        tuple(printed(string_name(instrument, string)) for string in range(len(instrument.strings))),
        tuple(_mark(anchor, route, key, instrument, reader) for anchor in route.anchors),
        stop_mm(1, furthest),
        f"{position_name(route.centre)} position",
    )


def _mark(anchor: Anchor, route: AnchorRoute, key: Key, instrument: Instrument, reader: Reader) -> AnchorMark:
    figure = number_figure(NumberChord(anchor.chord.root), lowers=reader.numbering.lowers(key))
    along = anchor.at.mm / instrument.length_mm
    words = printed_prose(anchor_words(instrument, anchor, route))
    joined = anchor.relation in JOINED
    return AnchorMark(figure, anchor.at.place.string, along, joined, words, _place(anchor, instrument))


def _place(anchor: Anchor, instrument: Instrument) -> str:
    string = printed(string_name(instrument, anchor.at.place.string))
    return f"open {string}" if anchor.finger.finger == OPEN else f"{string}, {finger_words(anchor.finger)}"
