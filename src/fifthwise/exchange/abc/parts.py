"""Parts played in the order that a tune's head gives, as ``AABB`` or ``(AB)3C``.

References
----------
The abc music standard 2.1, 3.1.9 "P: - parts"; from memory.
"""

from collections.abc import Sequence
from dataclasses import replace

from fifthwise.exchange.lead_sheet import LeadBar

__all__ = ["MOST_PARTS", "in_order", "read_order"]

MOST_PARTS = 200  # played one after another
MOST_TIMES = 99


def read_order(text: str) -> str | None:
    """The letters of an order, each as often as it is played; ``None`` where the text is no order."""
    open_at: list[int] = []
    found: list[str] = []
    last = -1  # where what a number repeats begins
    at = 0
    text = "".join(text.split()).replace(".", "")
    while at < len(text):
        sign = text[at]
        end = at + 1
        if sign.isalpha():
            last = len(found)
            found.append(sign)
        elif sign == "(":
            open_at.append(len(found))
        elif sign == ")" and open_at:
            last = open_at.pop()
        elif sign.isdecimal() and last >= 0:
            while end < len(text) and text[end].isdecimal():
                end += 1
            found += found[last:] * (min(int(text[at:end][:3]), MOST_TIMES) - 1)
            last = -1
        else:
            return None
        if len(found) > MOST_PARTS:
            return None
        at = end
    return "".join(found) if not open_at else None


def in_order(bars: Sequence[LeadBar], order: str) -> tuple[LeadBar, ...] | None:
    """Bars with their parts in an order; ``None`` where it names a part that is not there."""
    parts: dict[str, list[LeadBar]] = {}
    name = ""
    for bar in bars:
        name = bar.section or name
        parts.setdefault(name, []).append(bar)
    if any(letter not in parts for letter in order):
        return None
    found = list(parts.get("", ()))
    at = 0
    while at < len(order):
        times = 1
        while order[at : at + times + 1] == order[at] * (times + 1):
            times += 1
        found += _repeated(parts[order[at]], times)
        at += times
    return tuple(found)


def _repeated(part: Sequence[LeadBar], times: int) -> list[LeadBar]:
    """A part played several times: under a repeat, where none is in it."""
    if times == 1 or any(bar.repeat_start or bar.repeat_end or bar.endings or bar.jump for bar in part):
        return list(part) * times
    found = list(part)
    found[0] = replace(found[0], repeat_start=True)
    found[-1] = replace(found[-1], repeat_end=times)
    return found
