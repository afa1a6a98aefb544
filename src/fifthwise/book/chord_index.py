"""The chords of a song, in the order of playing, as texts that a database can search.

A run of chords ends at NC and where the key changes; a rest does not end it. Equal chords one after the
other are one. Numbers are counted in the key that holds, minor keys from six; what stands in a minor key is
put down a second time, counted from its home.

Two texts hold the runs, ``|`` between them. In ``chords`` each chord is ``root:third:quality/bass``. In
``families`` it is ``root`` and ``third`` alone, and chords that have both in common are one. The third is two
signs, since a chord without one goes with a major and with a minor number alike: ``jx`` major, ``xn`` minor,
``xd`` diminished, ``jn`` none. A chord without a third that stands beside another on its root has that one's
third, the next before the last: 5sus 5 is all one 5.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import chain, groupby, islice

from fifthwise.chart import Chart, FormFault, unfold
from fifthwise.theory import Degree, Key, NumberChord, Numbering, Quality, quality_text, recount, write_number

__all__ = ["BREAK", "NO_THIRD", "OPENING", "ChordIndex", "chord_index", "quality_sign", "third_of"]

OPENING = 8  # chords that a list of songs shows
BREAK = "|"
NO_THIRD = "jn"
THIRDS = {"": "jx", "+": "jx", "-": "xn", "o": "xd", "ø": "xd"}
FROM_SIX = Numbering()
HOME_IS_SIX = Degree(3)


@dataclass(frozen=True, slots=True)
class ChordIndex:
    """What a song's chords are found by, and the first of them as its page prints them."""

    families: str
    chords: str
    opening: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Played:
    """A chord counted from six in minor keys, and the key that holds."""

    chord: NumberChord
    key: Key


def chord_index(chart: Chart) -> ChordIndex:
    """The chords of a song; a song that cannot be unfolded has none."""
    try:
        runs = _runs(chart)
    except FormFault:
        return ChordIndex("", "", ())
    counted = [[played.chord for played in run] for run in runs] + _from_home(runs)
    thirds = [_thirds(run) for run in counted]
    families = (
        (token for token, _ in groupby(f"{c.root}{t}" for c, t in zip(run, of_run, strict=True)))
        for run, of_run in zip(counted, thirds, strict=True)
    )
    chords = (
        (_chord(c, t) for c, t in zip(run, of_run, strict=True))
        for run, of_run in zip(counted, thirds, strict=True)
    )
    first = islice(chain.from_iterable(runs), OPENING)
    return ChordIndex(_joined(families), _joined(chords), tuple(_as_printed(chart, each) for each in first))


def third_of(quality: Quality) -> str:
    """The two signs of a chord's third, wherever it stands."""
    return THIRDS[quality.triad] if quality.has_third else NO_THIRD


def quality_sign(quality: Quality) -> str:
    """A quality in one word."""
    return quality_text(quality).replace(" ", ",")


def _runs(chart: Chart) -> list[list[_Played]]:
    runs: list[list[_Played]] = [[]]
    for entry in unfold(chart).entries:
        if entry.chord is None:
            if entry.kind == "nc":
                runs.append([])
            continue
        one = FROM_SIX.one(entry.key)
        if runs[-1] and FROM_SIX.one(runs[-1][-1].key) != one:
            runs.append([])
        chord = recount(entry.chord, chart.numbering.one(entry.key).fifths - one.fifths)
        if not runs[-1] or runs[-1][-1].chord != chord:
            runs[-1].append(_Played(chord, entry.key))
    return [run for run in runs if run]


def _from_home(runs: list[list[_Played]]) -> list[list[NumberChord]]:
    """What stands in minor keys, counted from home."""
    return [
        [recount(played.chord, -HOME_IS_SIX.fifths) for played in stretch]
        for run in runs
        for minor, stretch in groupby(run, lambda played: played.key.is_minor)
        if minor
    ]


def _thirds(run: list[NumberChord]) -> list[str]:
    thirds = [third_of(chord.quality) for chord in run]
    for step, places in ((1, range(len(run) - 2, -1, -1)), (-1, range(1, len(run)))):
        for place in places:
            if thirds[place] == NO_THIRD and run[place].root == run[place + step].root:
                thirds[place] = thirds[place + step]
    return thirds


def _chord(chord: NumberChord, third: str) -> str:
    return f"{chord.root}:{third}:{quality_sign(chord.quality)}/{chord.bass or ''}"


def _joined(runs: Iterable[Iterable[str]]) -> str:
    """The runs as one text that begins and ends with a blank; empty where there are none."""
    text = f" {BREAK} ".join(" ".join(run) for run in runs)
    return f" {text} " if text else ""


def _as_printed(chart: Chart, played: _Played) -> str:
    numbering = chart.numbering
    chord = recount(played.chord, FROM_SIX.one(played.key).fifths - numbering.one(played.key).fifths)
    # With its quality, as pages print it, whatever a plain number means in the text.
    return write_number(chord, lowers=numbering.lowers(played.key))
