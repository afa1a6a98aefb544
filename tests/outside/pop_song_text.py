"""The songs of ``tests/data`` as chart text and as charts in letters, and what either must give.

An event with a section's name opens a section; one without goes on with it as a new line. A metre or a tonic
holds from its place on, so that a number chart, whose sections begin anew from the head, states it again.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from fifthwise.theory import LetterChord, NoteName, read_metre, read_note, write_letters
from tests.harte import NO_CHORD, bar_metre, number_text, read_harte

MOST_TIMES = 32
# The songs do not say how five eighths are grouped.
GROUPS = {"5/8": "5/8 2+3"}


@dataclass(frozen=True)
class Sounding:
    """One chord as it is played: its label, the tonic that holds, its length in quarters, its bar."""

    label: str
    tonic: NoteName
    length: Fraction
    bar: int


@dataclass(frozen=True)
class Phrase:
    """A line of bars, how often it is played, and the metre and tonic that hold."""

    section: str | None
    bars: tuple[tuple[str, ...], ...]
    times: int
    metre: str
    tonic: str


def phrases(song):
    """The song's lines, each with what holds there."""
    found, metre, tonic = [], None, None
    for event in song:
        metre, tonic = event.get("metre", metre), event.get("tonic", tonic)
        if "bars" in event:
            bars = tuple(tuple(bar.split()) for bar in event["bars"])
            found.append(Phrase(event["section"], bars, event["times"], metre, tonic))
    return found


def sounding(song):
    """Every chord in the order of playing, repeats unfolded."""
    found, count = [], 0
    for phrase in phrases(song):
        for bar in phrase.bars * phrase.times:
            found += _bar_sounding(bar, phrase, count)
            count += 1
    return found


def bar_count(song):
    """How many bars are played."""
    return sum(len(phrase.bars) * phrase.times for phrase in phrases(song))


def _bar_sounding(bar, phrase, number):
    metre, labels = _parted(bar, phrase)
    share = metre.length / len(labels)
    found = []
    for label in labels:
        if label == ".":
            found[-1] = replace(found[-1], length=found[-1].length + share)
        else:
            found.append(Sounding(label, read_note(phrase.tonic), share, number))
    return found


def _parted(bar, phrase):
    """A bar's metre, and its labels."""
    once = bar_metre(bar[0])
    text = once or phrase.metre
    return read_metre(GROUPS.get(text, text)), bar[1:] if once else bar


def number_chart(song, title):
    """Write a song as chart text, in numbers."""
    lines = phrases(song)
    head, current = lines[0], (lines[0].metre, lines[0].tonic)
    text = ["---", f"title: {title}", f"key: {head.tonic}", f"meter: {head.metre}", "---"]
    for place, phrase in enumerate(lines):
        alone = place + 1 == len(lines) or lines[place + 1].section is not None
        times = phrase.times
        if phrase.section is not None:
            current = (head.metre, head.tonic)
            whole = alone and times <= MOST_TIMES
            text.append(f"# {phrase.section}" + (f" x{times}" if whole and times > 1 else ""))
            times = 1 if whole else times
        marks = f"[meter {phrase.metre}] " if phrase.metre != current[0] else ""
        marks += f"[key {phrase.tonic}] " if phrase.tonic != current[1] else ""
        current = (phrase.metre, phrase.tonic)
        one = read_note(phrase.tonic)
        bars = [_bar_text(bar, phrase, lambda label, one=one: number_text(label, one)) for bar in phrase.bars]
        text += _repeated(bars, times, marks)
    return "\n".join(text)


def letter_chart(song, title):
    """Write a song as a player types it, in letters."""
    lines = phrases(song)
    head, metre, tonic = lines[0], lines[0].metre, lines[0].tonic
    text = [title, f"Key: {head.tonic}", f"Time: {head.metre}", ""]
    for phrase in lines:
        text += ["", f"[{phrase.section}]"] if phrase.section is not None else []
        text += [f"Time: {phrase.metre}"] if phrase.metre != metre else []
        text += [f"Key: {phrase.tonic}"] if phrase.tonic != tonic else []
        metre, tonic = phrase.metre, phrase.tonic
        bars = [_bar_text(bar, phrase, letters) for bar in phrase.bars]
        text += _repeated(bars, phrase.times, "")
    return "\n".join(text)


def letters(label):
    """Write a label as a chord in letters; ``N.C.`` where there is no chord."""
    return "N.C." if label in NO_CHORD else write_letters(read_harte(label))


def _bar_text(bar, phrase, write):
    metre, labels = _parted(bar, phrase)
    words = ["/" if label == "." else write(label) for label in labels]
    if "/" in words:  # then each token is a beat, and two tokens of two beats each are four
        words = [word for word in words for word in (word, *["/"] * (metre.beats // len(labels) - 1))]
    once = bar_metre(bar[0])
    mark = "" if once is None else f"[{metre}] "
    return mark + " ".join(words)


def _repeated(bars, times, marks):
    """Lines of bars for so many times, no more than 32 a repeat."""
    lines = []
    while times > 0:
        now = min(times, MOST_TIMES)
        row = marks + " | ".join(bars)
        lines.append(f"|: {row} :|" + (f" x{now}" if now > 2 else "") if now > 1 else f"| {row} |")
        marks, times = "", times - now
    return lines


def moved(chord, by):
    """A letter chord so many fifths higher."""
    bass = None if chord.bass is None else NoteName(chord.bass.fifths + by)
    return LetterChord(NoteName(chord.root.fifths + by), chord.quality, bass)
