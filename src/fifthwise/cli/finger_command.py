"""``fifthwise finger``: the best fingers for a line."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from fifthwise.cli.files import load_chart
from fifthwise.cli.options import json_option

if TYPE_CHECKING:
    from fifthwise.chart import Chart
    from fifthwise.strings import Instrument, Level
    from fifthwise.strings.fingering import Fingering

__all__ = ["command"]

CHART = ".md"
MOST_WAYS = 20
LEVELS = ("first", "half", "third", "all")
EXAMPLES = """\b
Examples:
  fifthwise finger "5, 6, 1 2 3 (5 3) 1 -" --key Ab --instrument viola
  fifthwise finger song.chart.md --key Ab --level third --json
  fifthwise finger "1 3 5 1'" --key A --tuning AEAE --ways 3
"""


@click.command("finger", short_help="The best fingers for a line.", epilog=EXAMPLES)
@click.argument("line")
@click.option("--key", "-k", help="The key; a chart's own where it is left out.")
@click.option(
    "--instrument", default="violin", show_default=True, help="Whose strings, as in 'five-string violin'."
)
@click.option("--tuning", help="Other strings, low to high, as in AEAE or 'A3 E4 A4 E5'.")
@click.option(
    "--level", type=click.Choice(LEVELS), default="first", show_default=True,
    help="Where the hand may lie: first position, half and first, up to third, all.",
)  # fmt: skip
@click.option(
    "--octave", type=click.IntRange(-1, 9), help="Octave of the 1; otherwise the one that lies best."
)
@click.option("--harmonics", is_flag=True, help="Natural harmonics may be used.")
@click.option(
    "--ways", type=click.IntRange(1, MOST_WAYS), default=1, help="How many fingerings, the best first."
)
@json_option
def command(
    line: str, key: str | None, instrument: str, tuning: str | None, level: "Level", octave: int | None,
    harmonics: bool, ways: int, for_machine: bool,
) -> None:  # fmt: skip
    """Finger a line typed in numbers, or the tune of a chart file.

    A typed line has one token a beat, as a chart's tune has: 5, is low, 1' high, ( ) shares a beat, - holds,
    0 rests, _ slurs on, 3&5 sounds together.
    """
    from fifthwise.chart import unfold
    from fifthwise.strings import instrument_of, tuned
    from fifthwise.strings.fingering import fingerings
    from fifthwise.strings.lines import fitted_tune

    player = instrument_of(instrument)
    if tuning:
        player = tuned(player, tuning)
    chart = _chart(line, key)
    fitted = fitted_tune(chart, unfold(chart), player, level, octave=octave, harmonics=harmonics)
    found = fingerings(fitted.line, player, level, ways, harmonics=harmonics)
    if for_machine:
        click.echo(_record(chart, player, level, found))
    else:
        click.echo(_text(chart, player, level, fitted.octave, found), nl=False)


def _chart(line: str, key: str | None) -> "Chart":
    """The chart that a file holds, in the key asked for, or one made of the typed line."""
    from fifthwise.chart import phrase_chart, rekey
    from fifthwise.stage import key_as_called
    from fifthwise.theory import read_key

    if line.endswith(CHART):
        chart = load_chart(Path(line))
        return rekey(chart, key_as_called(key, chart).tonic) if key else chart
    if not key:
        raise click.UsageError("Say the key of the line: --key Ab.")
    return phrase_chart(line, read_key(key))


def _record(chart: "Chart", player: "Instrument", level: str, found: "tuple[Fingering, ...]") -> str:
    from fifthwise.strings.fingering import fingering_record

    first, *others = (fingering_record(each, player) for each in found)
    head = {"key": chart.key.short, "instrument": player.name, "level": level}
    record = head | first | ({"others": others} if others else {})
    return json.dumps(record, indent=2, ensure_ascii=False)


def _text(
    chart: "Chart", player: "Instrument", level: "Level", octave: int, found: "tuple[Fingering, ...]"
) -> str:
    from fifthwise.page import finger_text, printed, printed_key
    from fifthwise.strings.fingering import LEVEL_NAMES
    from fifthwise.theory import SpelledPitch

    named = f"{chart.title}, " if chart.title else ""
    one = printed(SpelledPitch(chart.numbering.one(chart.key).fifths, octave))
    head = f"{named}{printed_key(chart.key)}, {player.label.lower()}, {LEVEL_NAMES[level]}, 1 is {one}"
    return "\n".join((head, "", "\n".join(finger_text(each, player) for each in found)))
