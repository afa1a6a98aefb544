"""Why a key suits or does not, in a singer's and a player's words.

The first sentence says where the tune lies. After it come the faults, the costliest first, then what is
left to spare. Reasons have no full stop, so that they can stand in a list.
"""

from collections.abc import Sequence

from fifthwise.theory import SpelledPitch
from fifthwise.voice.seat import Seat, beats_of, notes_at, only_after_lift, pitch_of
from fifthwise.voice.tune import SungNote
from fifthwise.voice.words import beats_text, count_text, share_text, step_text, times_text

__all__ = ["tell_reasons"]

MOST_REASONS = 4
NEAR_MIDDLE = 2  # semitones from the middle of comfort that still count as the middle


def tell_reasons(seat: Seat) -> tuple[str, ...]:
    """Two to four reasons, the one that a singer asks for first."""
    told = (_where_it_lies(seat), _octave(seat.octave_shift), *_faults(seat), _reserves(seat))
    return tuple(text for text in told if text)[:MOST_REASONS]


def _where_it_lies(seat: Seat) -> str:
    low, high = (pitch_of(notes_at(seat, end)[0], seat) for end in (seat.core.low, seat.core.high))
    stretch = f"on {low}" if low.midi == high.midi else f"from {low} to {high}"
    head = f"{share_text(seat.core.share)} of the tune lies" if seat.tune.timed else "The tune lies"
    return f"{head} {stretch}, {_against_comfort(seat, low.midi, high.midi)}{_top_clause(seat, high)}"


def _against_comfort(seat: Seat, low: int, high: int) -> str:
    easy, name = seat.singer.comfort, seat.singer.name
    if low > easy.high.midi:
        return f"above what {name} sings easily ({easy})"
    if high < easy.low.midi:
        return f"below what {name} sings easily ({easy})"
    if low < easy.low.midi or high > easy.high.midi:
        return f"partly outside what {name} sings easily ({easy})"
    off = (low + high) - (easy.low.midi + easy.high.midi)
    if abs(off) <= 2 * NEAR_MIDDLE:
        return f"the middle of what {name} sings easily"
    return f"the {'upper' if off > 0 else 'lower'} part of what {name} sings easily"


def _top_clause(seat: Seat, core_high: SpelledPitch) -> str:
    """The top, where it stands above that stretch and no fault speaks of it anyway."""
    notes = notes_at(seat, max(seat.heights))
    top = pitch_of(notes[0], seat)
    if top.midi == core_high.midi or top.midi > seat.singer.comfort.high.midi:
        return ""
    after = " after the key change" if only_after_lift(notes) else ""
    return f"; the top {top} comes {times_text(len(notes))}{after}"


def _octave(shift: int | None) -> str:
    if not shift:
        return ""
    octaves = "an octave" if abs(shift) == 1 else f"{count_text(abs(shift))} octaves"
    return f"It is sung {octaves} {'higher' if shift > 0 else 'lower'} than written"


def _faults(seat: Seat) -> list[str]:
    """What is too high, too low or in the change-over, the costliest first."""
    parts = seat.sitting.parts
    found = [
        (parts.above_usable + parts.above_comfort, _too_high(seat)),
        (parts.below_usable + parts.below_comfort, _too_low(seat)),
        (parts.turns, _in_turns(seat)),
    ]
    return [text for _, text in sorted(found, key=lambda item: -item[0])]


def _too_high(seat: Seat) -> str:
    notes, singer = notes_at(seat, max(seat.heights)), seat.singer
    top = pitch_of(notes[0], seat)
    beyond, easy = top.midi - singer.usable.high.midi, top.midi - singer.comfort.high.midi
    head = f"The top note {top} is"
    if beyond > 0:
        limit = f"{singer.name}'s highest note, {singer.usable.high},"
        return f"{head} {step_text(beyond)} above {limit} {_how_long(seat, notes)}".rstrip(", ")
    return f"{head} {step_text(easy)} above comfort {_how_long(seat, notes)}".rstrip() if easy > 0 else ""


def _too_low(seat: Seat) -> str:
    notes, singer = notes_at(seat, min(seat.heights)), seat.singer
    low = pitch_of(notes[0], seat)
    beyond, easy = singer.usable.low.midi - low.midi, singer.comfort.low.midi - low.midi
    head = f"The lowest note {low} is"
    if beyond > 0:
        limit = f"{singer.name}'s lowest note, {singer.usable.low},"
        return f"{head} {step_text(beyond)} below {limit} {_how_long(seat, notes)}".rstrip(", ")
    return f"{head} {step_text(easy)} below comfort {_how_long(seat, notes)}".rstrip() if easy > 0 else ""


def _how_long(seat: Seat, notes: Sequence[SungNote]) -> str:
    time = f"for {beats_text(beats_of(notes))}" if seat.tune.timed else ""
    return f"{time} after the key change".strip() if only_after_lift(notes) else time


def _in_turns(seat: Seat) -> str:
    beats, turns = seat.sitting.in_turns_beats, seat.singer.turns
    if not beats:
        return ""
    zone = f"around {turns[0]}" if len(turns) == 1 else f"from {turns[0]} to {turns[-1]}"
    verb = "lies" if beats <= 1 else "lie"
    return _capital(f"{beats_text(beats)} {verb} in the change-over {zone}")


def _reserves(seat: Seat) -> str:
    above, below = seat.sitting.upper_reserve, seat.sitting.lower_reserve
    if above < 0 and below < 0:
        return ""
    spare = f"{_spare(above)} to spare above the top note, {_spare(below)} below the lowest"
    return _capital(spare)


def _spare(semitones: int) -> str:
    return step_text(max(0, semitones))


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]
