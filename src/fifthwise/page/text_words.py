"""Words that a pickup brings along, joined to the bar that it leads into."""

from dataclasses import replace
from itertools import zip_longest

from fifthwise.page.layout_model import SheetRow

__all__ = ["with_pickup_words"]


def with_pickup_words(row: SheetRow) -> SheetRow:
    """Put the words of a row's pickup before its first bar's, where the bars have words of their own.

    A row whose words stand under it as a whole is left as it is.
    """
    if row.pickup is None or not row.bars or not any(any(bar.words) for bar in row.bars):
        return row
    first = row.bars[0]
    led_in = zip_longest(row.pickup.words, row.words, first.words, fillvalue="")
    joined = tuple(" ".join(words for words in verse if words) for verse in led_in)
    pickup = replace(row.pickup, words=())
    return replace(row, pickup=pickup, bars=(replace(first, words=joined), *row.bars[1:]), words=())
