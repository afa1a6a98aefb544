"""Every way in which two to four instruments can voice a chord, as arrays, with what each costs.

A row is one voicing, a column a player, low to high. Voices do not cross; neighbouring upper voices lie an
octave apart at most; under them a cello or double bass has the chord's bass, however far below.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.changes import Change
from fifthwise.strings.lines.reach import octaves_of, reached
from fifthwise.strings.lines.tones import Tone, bass_tone, chord_roles
from fifthwise.strings.lines.weights import SectionWeights
from fifthwise.theory import SpelledPitch

__all__ = ["Player", "Top", "Voicings", "is_bass", "voicings"]

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
Player = tuple[Instrument, Level]
OCTAVE, FIFTH, C3 = 12, 7, 48
LOWEST_BASS = 36  # the cello's open C: what goes so low plays the bass
GUIDES = ("third", "seventh")


@dataclass(frozen=True, slots=True)
class Top:
    """A top voice that is given: what it has when the chord begins, and the lowest it goes meanwhile."""

    at_change: int
    lowest: int
    tone: Tone | None


@dataclass(frozen=True, slots=True, eq=False)
class Voicings:
    """Every voicing of a chord.

    Attributes
    ----------
    offered : tuple of tuple of (SpelledPitch, Tone)
        For each player, what that player may take.
    picks : ndarray, shape (rows, players)
        Indices into ``offered``.
    sounds : ndarray, shape (rows, players)
        MIDI numbers.
    costs : ndarray, shape (rows,)
    """

    offered: tuple[tuple[tuple[SpelledPitch, Tone], ...], ...]
    picks: Ints
    sounds: Ints
    costs: Floats

    def voice(self, row: int, player: int) -> tuple[SpelledPitch, Tone]:
        """What a player has in a voicing."""
        return self.offered[player][int(self.picks[row, player])]


def is_bass(instrument: Instrument) -> bool:
    """Whether an instrument goes so low that it plays the bass of a chord."""
    return min(string.midi for string in instrument.strings) <= LOWEST_BASS


def voicings(change: Change, players: Sequence[Player], top: Top | None, weights: SectionWeights) -> Voicings:
    """Tell every voicing of a chord, none where it has none.

    Parameters
    ----------
    players : sequence of (Instrument, Level)
        Those who are voiced, low to high; above them lies ``top``, where it is given.
    """
    offered = tuple(
        tuple(_offered(change, instrument, level, bass=player == 0 and is_bass(instrument)))
        for player, (instrument, level) in enumerate(players)
    )
    sounds = [np.array([pitch.midi for pitch, _ in own], dtype=np.int64) for own in offered]
    picks = _picks(sounds, bass=is_bass(players[0][0]), top=top)
    heard = np.stack([own[picks[:, player]] for player, own in enumerate(sounds)], axis=1)
    costs = _spacing(heard, players, top, weights) + _missing(change, offered, picks, top, weights)
    return Voicings(offered, picks, heard, costs)


def _offered(
    change: Change, instrument: Instrument, level: Level, *, bass: bool
) -> list[tuple[SpelledPitch, Tone]]:
    tones = (bass_tone(change),) if bass else chord_roles(change)
    sounds = reached(instrument, level)
    return [(pitch, tone) for tone in tones for pitch in octaves_of(tone.note, sounds)]


def _picks(sounds: list[Ints], *, bass: bool, top: Top | None) -> Ints:
    """All picks of one pitch a player, low to high, that neither cross nor leave a gap."""
    picks = np.arange(sounds[0].size)[:, None]
    for player in range(1, len(sounds)):
        gaps = sounds[player][None, :] - sounds[player - 1][picks[:, -1]][:, None]
        widest = np.inf if bass and player == 1 else OCTAVE
        rows, new = np.nonzero((gaps >= 0) & (gaps <= widest))
        picks = np.hstack([picks[rows], new[:, None]])
    if top is not None:
        highest = sounds[-1][picks[:, -1]]
        alone = bass and len(sounds) == 1
        picks = picks[(highest <= top.lowest) & (alone | (top.at_change - highest <= OCTAVE))]
    return picks


def _spacing(heard: Ints, players: Sequence[Player], top: Top | None, weights: SectionWeights) -> Floats:
    total = np.zeros(len(heard))
    for player, (instrument, _) in enumerate(players):
        ease = max(string.midi for string in instrument.strings) + FIFTH
        total += weights.high * np.maximum(0, heard[:, player] - ease)
        if player == 0 and is_bass(instrument):
            total += weights.height * (heard[:, 0] - min(string.midi for string in instrument.strings))
    whole = heard if top is None else np.hstack([heard, np.full((len(heard), 1), top.at_change)])
    for player in range(1, whole.shape[1]):
        low, gap = whole[:, player - 1], whole[:, player] - whole[:, player - 1]
        total += weights.unison * (gap == 0) + weights.muddy * ((gap < FIFTH) & (low < C3))
        if player > 1 or not is_bass(players[0][0]):
            total += weights.wide * np.maximum(0, gap - FIFTH)
    return total


def _missing(
    change: Change,
    offered: tuple[tuple[tuple[SpelledPitch, Tone], ...], ...],
    picks: Ints,
    top: Top | None,
    weights: SectionWeights,
) -> Floats:
    """What of the chord nobody plays, and what is doubled that should not be."""
    total = np.zeros(len(picks))
    for tone in chord_roles(change):
        own = [np.array([each.note == tone.note for _, each in voice], dtype=np.bool_) for voice in offered]
        count = np.full(len(picks), int(_has(top, tone)), dtype=np.int64)
        for player, has in enumerate(own):
            count += has[picks[:, player]]
        total += _worth(tone, weights) * (count == 0)
        if tone.role == "third":
            total += weights.doubled_third * np.maximum(0, count - 1)
    if top is None:
        dull = np.array([tone.role not in GUIDES for _, tone in offered[-1]], dtype=np.bool_)
        total += weights.top_dull * dull[picks[:, -1]]
    return total


def _has(top: Top | None, tone: Tone) -> bool:
    return top is not None and top.tone is not None and top.tone.note == tone.note


def _worth(tone: Tone, weights: SectionWeights) -> float:
    """What it costs to leave a tone out."""
    if tone.altered or tone.role == "colour":
        return weights.no_colour
    return float(getattr(weights, f"no_{tone.role}"))
