"""What a leader should look at in a running order: three slow songs in a row, one key all night, capos.

The limits are starting values: common practice, without a source.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from fifthwise.chart import DEFAULT_TEMPO, groove
from fifthwise.evening import Player
from fifthwise.page import printed_key
from fifthwise.stage.books import player_view
from fifthwise.stage.tonight import Call, Tonight
from fifthwise.theory import Metre

__all__ = ["SLOW_BPM", "OrderNotice", "order_notices"]

SLOW_BPM = 80  # felt beats a minute; this and less is slow
IN_A_ROW = 3
ALIKE = 0.03  # tempos that differ by less than this share are heard as the same
WHOLE = 0


@dataclass(frozen=True, slots=True)
class OrderNotice:
    """Something to look at, with its mend; both without a full stop.

    Attributes
    ----------
    number : int
        Place of the song in the running order, from 1; ``WHOLE`` (0) where it is about all of it.
    """

    number: int
    words: str
    mend: str


def order_notices(tonight: Tonight) -> tuple[OrderNotice, ...]:
    """Everything to look at in the order, what is about the whole first, then by song."""
    calls = tonight.calls
    found = [
        *_one_key(calls), *_slow(calls), *_keys_in_a_row(calls), *_singers_in_a_row(tonight), *_alike(calls),
        *(notice for player in tonight.evening.players for notice in _capos(player, tonight)),
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda notice: notice.number))


def _tempo(call: Call) -> float:
    return float(call.chart.tempo or DEFAULT_TEMPO)


def _feel(call: Call) -> tuple[str, Metre]:
    return groove(call.chart.feel or ""), call.chart.metre


def _runs(calls: Sequence[Call], same: Callable[[Call], object]) -> Iterator[list[Call]]:
    """Runs of songs that are alike, long enough to be told."""
    for shared, run in groupby(calls, key=same):
        songs = list(run)
        if shared and len(songs) >= IN_A_ROW:
            yield songs


def _one_key(calls: Sequence[Call]) -> Iterator[OrderNotice]:
    keys = {call.chart.key for call in calls}
    if len(calls) >= IN_A_ROW and len(keys) == 1:
        words = f"Every song is in {printed_key(keys.pop())}"
        yield OrderNotice(WHOLE, words, "Give one song to another singer, or move it by a string")


def _keys_in_a_row(calls: Sequence[Call]) -> Iterator[OrderNotice]:
    runs = list(_runs(calls, lambda call: call.chart.key))
    for run in runs if len(runs) != 1 or len(runs[0]) < len(calls) else ():
        words = f"{_count(len(run))} songs in a row in {printed_key(run[0].chart.key)}"
        yield OrderNotice(run[IN_A_ROW - 1].number, words, "Put a song in another key between them")


def _slow(calls: Sequence[Call]) -> Iterator[OrderNotice]:
    for run in _runs(calls, lambda call: _tempo(call) <= SLOW_BPM):
        third = run[IN_A_ROW - 1]
        quicker = [call for call in calls if _tempo(call) > SLOW_BPM]
        near = min(quicker, key=lambda call: abs(call.number - third.number), default=None)
        mend = (
            f"Put '{near.chart.title}' ({_tempo(near):g}) before it"
            if near
            else "Put a quicker one before it"
        )
        yield OrderNotice(third.number, f"{_count(len(run))} slow songs in a row", mend)


def _singers_in_a_row(tonight: Tonight) -> Iterator[OrderNotice]:
    singing = {call.singer.name for call in tonight.calls if call.singer}
    if len(singing) < 2:
        return
    for run in _runs(tonight.calls, lambda call: call.singer and call.singer.name):
        name = run[0].singer.name if run[0].singer else ""
        words = f"{name} sings {_count(len(run)).lower()} in a row"
        yield OrderNotice(run[IN_A_ROW - 1].number, words, "Let somebody else sing one of them")


def _alike(calls: Sequence[Call]) -> Iterator[OrderNotice]:
    """Songs that begin as the one before did."""
    for before, call in pairwise(calls):
        if _feel(before) == _feel(call) and abs(_tempo(before) - _tempo(call)) < ALIKE * _tempo(call):
            words = f"Almost the tempo of '{before.chart.title}', and the same feel"
            yield OrderNotice(call.number, words, "Swap it with another, or count it off differently")


def _capos(player: Player, tonight: Tonight) -> Iterator[OrderNotice]:
    """A capo that moves between songs that follow without a stop, or too often."""
    frets = [player_view(player, call, tonight.evening.paper).part.capo for call in tonight.calls]
    moves = [
        (before, call, old, new)
        for (before, old), (call, new) in pairwise(zip(tonight.calls, frets, strict=True))
        if old != new
    ]
    for before, call, old, new in moves:
        if before.song.segue:
            words = f"{player.name} moves the capo from {old or 'none'} to {new or 'none'} without a stop"
            yield OrderNotice(call.number, words, f"Stop after '{before.chart.title}', or let it stay off")
    if len(moves) > len(tonight.calls) / 2 and len(moves) >= IN_A_ROW:
        words = f"{player.name} moves the capo {len(moves)} times"
        yield OrderNotice(WHOLE, words, "Put songs with the same fret beside each other")


def _count(number: int) -> str:
    return ("Three", "Four", "Five", "Six")[number - IN_A_ROW] if number < 7 else str(number)
