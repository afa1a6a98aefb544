"""``fifthwise advice``: what to play over a song."""

from pathlib import Path

import click

from fifthwise.cli.files import load_chart

__all__ = ["command"]

CAUTION = "A new stroke or stretch is new load: begin slowly, rest often, stop when it hurts."
EXAMPLES = """\b
Examples:
  fifthwise advice song.chart.md --key Ab --instrument viola
"""


@click.command("advice", short_help="What to play over a song.", epilog=EXAMPLES)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--key", "-k", help="The key to play it in; a bare note takes the song's mode.")
@click.option("--instrument", default="violin", show_default=True, help="Whose strings, as in viola.")
@click.option("--tuning", help="Other strings, low to high, as in AEAE or 'A3 E4 A4 E5'.")
def command(file: Path, key: str | None, instrument: str, tuning: str | None) -> None:
    """Tell notes to land on, scales, drones, room for fills, places of the form, and bowings."""
    from fifthwise.chart import rekey, unfold
    from fifthwise.page import advice_text
    from fifthwise.stage import key_as_called
    from fifthwise.strings import instrument_of, tuned

    player = instrument_of(instrument)
    if tuning:
        player = tuned(player, tuning)
    chart = load_chart(file)
    if key:
        chart = rekey(chart, key_as_called(key, chart).tonic)
    click.echo(f"{advice_text(chart, unfold(chart), player)}\n{CAUTION}")
