"""A way to the anchors in short words, as one player would tell another."""

from fifthwise.strings.anchors import Anchor, AnchorRoute
from fifthwise.strings.frame import OPEN, THUMB
from fifthwise.strings.hand import HeldFinger
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.naming import position_name, string_name
from fifthwise.theory import Key, Numbering, write_number

__all__ = ["anchor_words", "finger_words", "route_words"]

FIRST = "first"  # goes without saying
ORDINALS = {"1": "first", "2": "second", "3": "third", "4": "fourth"}


def finger_words(finger: HeldFinger) -> str:
    """A finger in words, so that its figure is not taken for a degree: ``low second finger``."""
    if finger.finger in (OPEN, THUMB):
        return finger.name
    *place, number = finger.name.split()
    return " ".join((*place, ORDINALS[number], "finger"))


def route_words(
    instrument: Instrument,
    route: AnchorRoute,
    key: Key,
    numbering: Numbering = Numbering(),  # noqa: B008
) -> str:
    """Tell a way to the anchors.

    ``1: D string, low first finger. 5: same finger, A string. 4: same finger, G string. 6-: whole step above
    the 5, low second finger.``
    """
    lowers = numbering.lowers(key)
    told = (
        f"{write_number(anchor.chord, lowers=lowers)}: {anchor_words(instrument, anchor, route)}"
        for anchor in route.anchors
    )
    position = position_name(route.centre)
    place = "" if position == FIRST else f"{position} position. ".capitalize()
    return f"{place}{'. '.join(told)}."


def anchor_words(instrument: Instrument, anchor: Anchor, route: AnchorRoute) -> str:
    """Tell where one anchor of a way lies: ``D string, low first finger``, ``same finger, A string``."""
    string = f"{string_name(instrument, anchor.at.place.string)} string"
    if anchor.finger.finger == OPEN:
        return f"open {string}"
    finger = finger_words(anchor.finger)
    if anchor.finger.centre != route.centre:
        finger = f"{finger} in {position_name(anchor.finger.centre)} position"
    if anchor.relation == "same finger":
        other = any(each.relation not in ("start", "same finger") for each in _before(anchor, route))
        return f"same finger{' as the 1' * other}, {string}"
    return f"whole step above the 5, {finger}" if anchor.relation == "above the 5" else f"{string}, {finger}"


def _before(anchor: Anchor, route: AnchorRoute) -> tuple[Anchor, ...]:
    """The anchors of a way that are told before one."""
    return route.anchors[: route.anchors.index(anchor)]
