"""What a leader should look at before the evening: not wrong, but perhaps meant otherwise."""

from collections.abc import Iterator

from fifthwise.chart import Chart, Cue
from fifthwise.stage.tonight import Call, Tonight, best_names

__all__ = ["notices"]

EVERYONE = "all"


def notices(tonight: Tonight) -> tuple[str, ...]:
    """Everything to look at, in running order, each one sentence without its full stop."""
    people = {p.name.lower() for p in tonight.evening.players} | {
        s.name.lower() for s in tonight.evening.singers
    }
    called = people | {word for player in tonight.evening.players for word in player.part.words} | {EVERYONE}
    found = [notice for call in tonight.calls for notice in _of_song(call, people, called)]
    if tonight.calls and tonight.calls[-1].song.segue:
        found.append(f"'{tonight.calls[-1].chart.title}' goes straight on, but is the last song")
    return tuple(dict.fromkeys(found))


def _of_song(call: Call, people: set[str], called: set[str]) -> Iterator[str]:
    title = call.chart.title
    yield from _reach(call)
    for name in dict.fromkeys(cue.player for cue in _cues(call.chart) if cue.player):
        if name not in called:
            yield f"'{title}': the cue for '@{name}' stands on nobody's page tonight"
    counts_in = call.song.counts_in
    if counts_in and counts_in.lower() not in people:
        yield f"'{title}': '{counts_in}', who counts in, neither plays nor sings tonight"


def _reach(call: Call) -> Iterator[str]:
    """Notes that the singer has not got in tonight's key."""
    if call.fit is None or call.singer is None:
        return
    sitting, name = call.fit.sitting, call.singer.name
    above, below = -sitting.upper_reserve, -sitting.lower_reserve
    ends = [
        f"the top {call.fit.top} is {_steps(above)} above" if above > 0 else "",
        f"the low {call.fit.bottom} is {_steps(below)} below" if below > 0 else "",
    ]
    told = " and ".join(end for end in ends if end)
    if told:
        song = f"'{call.chart.title}' in {call.chart.key.short}"
        *others, last = best_names(call.fits[name])
        yield f"{song}: {told} all that {name} has; try {', '.join(others)} or {last}"


def _steps(count: int) -> str:
    return "1 half step" if count == 1 else f"{count} half steps"


def _cues(chart: Chart) -> Iterator[Cue]:
    for section in chart.sections:
        yield from section.cues
        for bar in section.bars:
            yield from bar.cues
