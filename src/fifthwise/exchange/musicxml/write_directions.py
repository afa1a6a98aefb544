"""What stands above and between bars: sections, tempos, words, signs, jumps and bar lines."""

from collections.abc import Sequence
from fractions import Fraction

from fifthwise.chart import JumpKind, Mark
from fifthwise.exchange.lead_sheet import LeadBar
from fifthwise.exchange.musicxml.pen import decimal, element, escaped
from fifthwise.exchange.musicxml.read_direction import CLOSE, OPEN, reads_otherwise

__all__ = ["after_bar", "before_bar", "left_barline", "mark_words", "right_barline"]

UNITS = {
    Fraction(1, 2): ("eighth", ""),
    Fraction(1): ("quarter", ""),
    Fraction(3, 2): ("quarter", "<beat-unit-dot/>"),
    Fraction(2): ("half", ""),
}
JUMPS: dict[JumpKind, tuple[str, str]] = {
    "dc al coda": ("D.C. al Coda", 'dacapo="yes"'),
    "dc al fine": ("D.C. al Fine", 'dacapo="yes"'),
    "ds al coda": ("D.S. al Coda", 'dalsegno="segno"'),
    "ds al fine": ("D.S. al Fine", 'dalsegno="segno"'),
}
MARK_WORDS: dict[Mark, str] = {
    "hold": "hold", "stop": "stop", "push": "push", "push16": "push 16", "late": "late", "accent": "accent",
}  # fmt: skip


def _direction(kinds: str, tail: str = "") -> str:
    return f'<direction placement="above">{kinds}{tail}</direction>'


def _kind(inside: str) -> str:
    return element("direction-type", inside)


def _words(text: str) -> str:
    return _kind(element("words", escaped(text)))


def before_bar(bar: LeadBar, feel: str, *, marked: bool) -> str:
    """What is said as a bar begins; ``feel`` goes with its tempo, which is printed where it is ``marked``."""
    found = []
    if bar.section:
        found.append(_direction(_kind(element("rehearsal", escaped(bar.section)))))
    if bar.segno:
        found.append(_direction(_kind("<segno/>"), '<sound segno="segno"/>'))
    if bar.coda:
        found.append(_direction(_kind("<coda/>"), '<sound coda="coda"/>'))
    if bar.tempo_bpm is not None:
        found.append(_tempo(bar.tempo_bpm, bar.metre.tempo_unit, feel, marked=marked))
    found += [_direction(_words(_said(words))) for words in bar.words if words.strip()]
    return "".join(found)


def _said(words: str) -> str:
    """Words for the players, in quotes where they would be taken for a sign."""
    return f"{OPEN}{words}{CLOSE}" if reads_otherwise(words) else words


def _tempo(tempo_bpm: Fraction, beat: Fraction, feel: str, *, marked: bool) -> str:
    said = (_words(feel) if feel else "") + (_metronome(tempo_bpm, beat) if marked else "")
    sound = f'<sound tempo="{decimal(tempo_bpm)}"/>'
    return _direction(said, sound) if said else sound


def _metronome(tempo_bpm: Fraction, beat: Fraction) -> str:
    beat = beat if beat in UNITS else Fraction(1)
    unit, dot = UNITS[beat]
    shown = decimal(Fraction(round(tempo_bpm / beat * 100), 100))
    return _kind(element("metronome", element("beat-unit", unit) + dot + element("per-minute", shown)))


def after_bar(bar: LeadBar) -> str:
    """What is said as a bar ends."""
    found = []
    if bar.to_coda:
        found.append(_direction(_words("To Coda"), '<sound tocoda="coda"/>'))
    if bar.fine:
        found.append(_direction(_words("Fine"), '<sound fine="yes"/>'))
    if bar.jump is not None:
        words, sound = JUMPS[bar.jump]
        found.append(_direction(_words(words), f"<sound {sound}/>"))
    return "".join(found)


def mark_words(marks: Sequence[Mark], offset: str, *, held: bool) -> str:
    """A chord's marks as words; ``held`` where a fermata says that it is held."""
    said = [MARK_WORDS[mark] for mark in marks if not (held and mark == "hold")]
    return "".join(_direction(_words(words), offset) for words in said)


def left_barline(bar: LeadBar) -> str:
    """The bar line before a bar, where a repeat or an ending begins."""
    if not (bar.repeat_start or bar.endings):
        return ""
    style = "<bar-style>heavy-light</bar-style>" if bar.repeat_start else ""
    ending = f'<ending number="{_numbers(bar.endings)}" type="start"/>' if bar.endings else ""
    repeat = '<repeat direction="forward"/>' if bar.repeat_start else ""
    return f'<barline location="left">{style}{ending}{repeat}</barline>'


def right_barline(bar: LeadBar, endings: Sequence[int], *, is_last: bool, is_double: bool) -> str:
    """The bar line after a bar; ``endings`` are those whose bracket closes there."""
    ends = bool(endings and bar.ends_ending)
    if not (bar.repeat_end or ends or is_last or is_double):
        return ""
    style = "light-heavy" if bar.repeat_end or is_last else "light-light" if is_double else "regular"
    kind = "stop" if bar.repeat_end else "discontinue"
    ending = f'<ending number="{_numbers(endings)}" type="{kind}"/>' if ends else ""
    times = f' times="{bar.repeat_end}"' if bar.repeat_end > 2 and not endings else ""
    repeat = f'<repeat direction="backward"{times}/>' if bar.repeat_end else ""
    return f'<barline location="right">{element("bar-style", style)}{ending}{repeat}</barline>'


def _numbers(endings: Sequence[int]) -> str:
    return ", ".join(map(str, endings))
