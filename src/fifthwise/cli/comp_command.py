"""``fifthwise comp``: a line to play under a song, with its fingers."""

import json
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import click

from fifthwise.cli.files import load_chart
from fifthwise.cli.options import json_option

if TYPE_CHECKING:
    from fifthwise.chart import Chart, Timeline
    from fifthwise.strings import Instrument, Level
    from fifthwise.strings.lines import ChartLine, Register

__all__ = ["command"]

Kind = Literal["comp", "guide", "pad", "bass", "harmony", "section"]
LEVELS = ("first", "half", "third", "all")
NAMES = {
    "comp": "comp",
    "guide": "guide line",
    "pad": "pad",
    "bass": "bass",
    "harmony": "second voice",
    "section": "section",
}
CAUTION = "New double stops and stretches are new load: begin slowly, rest often, stop when it hurts."
EXAMPLES = """\b
Examples:
  fifthwise comp song.chart.md --key A --instrument violin
  fifthwise comp song.chart.md --instrument cello --kind bass
  fifthwise comp song.chart.md --kind harmony --above --level third --json
  fifthwise comp song.chart.md --kind section --players "cello, viola, violin"
"""


@dataclass(frozen=True, slots=True)
class _Wish:
    """What was asked for."""

    who: "Instrument"
    level: "Level"
    kind: Kind
    clear: bool
    above: bool
    alone: bool
    octave: int | None


@click.command("comp", short_help="A line to play under a song, with its fingers.", epilog=EXAMPLES)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--key", "-k", help="The key to play it in; a bare note takes the song's mode.")
@click.option(
    "--instrument", default="violin", show_default=True, help="Whose strings, as in 'five-string violin'."
)
@click.option(
    "--level", type=click.Choice(LEVELS), default="first", show_default=True,
    help="Where the hand may lie: first position, half and first, up to third, all.",
)  # fmt: skip
@click.option(
    "--kind", type=click.Choice(tuple(NAMES)), default="comp", show_default=True,
    help="Double stops, one voice of 3s and 7s, long tones, a bass, a second voice to the tune, a section.",
)  # fmt: skip
@click.option("--players", help="A section's instruments, low to high, as in 'cello, viola, violin'.")
@click.option("--clear", is_flag=True, help="A comp keeps clear of where the singer sings most.")
@click.option("--above", is_flag=True, help="A second voice lies above the tune, not below.")
@click.option("--alone", is_flag=True, help="A second voice without the tune, for another player.")
@click.option("--octave", type=click.IntRange(-1, 9), help="Octave of the tune's 1, for a second voice.")
@json_option
def command(
    file: Path, key: str | None, instrument: str, level: "Level", kind: Kind, players: str | None,
    clear: bool, above: bool, alone: bool, octave: int | None, for_machine: bool,
) -> None:  # fmt: skip
    """Make a line over a song's chords, or to its tune: degree, string and finger, bar by bar."""
    from fifthwise.chart import rekey, unfold
    from fifthwise.stage import key_as_called
    from fifthwise.strings import instrument_of

    wish = _Wish(instrument_of(instrument), level, kind, clear, above, alone, octave)
    chart = load_chart(file)
    if key:
        chart = rekey(chart, key_as_called(key, chart).tonic)
    timeline = unfold(chart)
    parts = (
        _section(chart, timeline, wish, players)
        if kind == "section"
        else [(_line(chart, timeline, wish), wish)]
    )
    if for_machine:
        records = [_record(chart, timeline, line, whose) for line, whose in parts]
        click.echo(json.dumps(records if kind == "section" else records[0], indent=2, ensure_ascii=False))
    else:
        click.echo("\n\n".join(_text(chart, timeline, line, whose) for line, whose in parts))


def _section(
    chart: "Chart", timeline: "Timeline", wish: _Wish, players: str | None
) -> "list[tuple[ChartLine, _Wish]]":
    """Each player's line of a section, low to high."""
    from fifthwise.strings import instrument_of
    from fifthwise.strings.lines import section

    if not players:
        raise click.UsageError("Say who plays, low to high: --players 'cello, viola, violin'.")
    named = [instrument_of(name) for name in players.split(",")]
    found = section(chart, timeline, [(who, wish.level) for who in named])
    return [(line, replace(wish, who=who)) for line, who in zip(found.parts, named, strict=True)]


def _sung(chart: "Chart", timeline: "Timeline") -> "Register | None":
    from fifthwise.strings.lines import sung_register

    sung = sung_register(chart, timeline)
    if sung is None:
        click.echo("notice: the song does not say where it is sung; write 'octave:' in its head", err=True)
    return sung


def _line(chart: "Chart", timeline: "Timeline", wish: _Wish) -> "ChartLine":
    from fifthwise.strings.lines import bass_line, comp, guide_line, harmony, pad

    song = chart, timeline, wish.who, wish.level
    match wish.kind:
        case "comp":
            return comp(*song, sung=_sung(chart, timeline) if wish.clear else None)
        case "guide":
            return guide_line(*song)
        case "pad":
            return pad(*song)
        case "bass":
            return bass_line(*song)
        case "harmony":
            side: Literal["above", "below"] = "above" if wish.above else "below"
            return harmony(*song, side=side, with_tune=not wish.alone, octave=wish.octave)
        case "section":
            raise AssertionError("a section has several lines")


def _record(chart: "Chart", timeline: "Timeline", line: "ChartLine", wish: _Wish) -> dict[str, Any]:
    from fifthwise.strings.lines import line_record

    head = {"title": chart.title, "key": chart.key.short, "instrument": wish.who.name, "level": wish.level}
    return head | {"kind": wish.kind} | line_record(chart, timeline, line, wish.who)


def _text(chart: "Chart", timeline: "Timeline", line: "ChartLine", wish: _Wish) -> str:
    """The line as a table, then its shifts."""
    from fifthwise.page import printed_key
    from fifthwise.strings.fingering import LEVEL_NAMES
    from fifthwise.strings.lines import line_rows, shift_rows

    player, level = wish.who.label.lower(), LEVEL_NAMES[wish.level]
    octave = "" if line.octave is None else f", 1 in octave {line.octave}"
    head = f"{chart.title}, {printed_key(chart.key)}, {NAMES[wish.kind]}, {player}, {level}{octave}"
    rows = line_rows(chart, timeline, line, wish.who)
    table = [(str(row.bar), row.section, row.numbers, row.letters, row.notes) for row in rows]
    widths = [max(map(len, column)) for column in zip(*table, strict=True)]
    told = ["  ".join(map(str.ljust, row, widths)).rstrip() for row in table]
    shifts = shift_rows(timeline, line)
    ends = ["", f"Shifts: {len(shifts)}", *(f"  {shift}" for shift in shifts)]
    doubled = any(len(note.note.pitches) > 1 for note in line.fingering.notes)
    return "\n".join([head, "", *told, *ends, *(["", CAUTION] if doubled else [])])
