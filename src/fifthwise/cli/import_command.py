"""``fifthwise import``: a chart in letters to chart text."""

from pathlib import Path

import click

from fifthwise.cli.files import read_text, tell_notices
from fifthwise.cli.options import KEY
from fifthwise.files import FileFault, write_file
from fifthwise.theory import MINOR_WAYS, PLAIN_WAYS, Key, MinorWay, Numbering, PlainWay

__all__ = ["command"]

EXAMPLES = """\b
Examples:
  fifthwise import song.txt --key G
  fifthwise import song.txt --key Em --minor from-one --out song.chart.md
"""


@click.command("import", short_help="A chart in letters to chart text.", epilog=EXAMPLES)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--key", "-k", type=KEY, help="The key of the letters, where the file has no line 'Key: G'.")
@click.option("--title", help="The title, where the file has none.")
@click.option(
    "--minor",
    type=click.Choice(MINOR_WAYS),
    default="from-six",
    show_default=True,
    help="How a minor key counts.",
)
@click.option(
    "--plain",
    type=click.Choice(PLAIN_WAYS),
    default="explicit",
    show_default=True,
    help="What a plain number means.",
)
@click.option("--out", type=click.Path(path_type=Path), help="Where to, as in song.chart.md; otherwise here.")
@click.option("--force", is_flag=True, help="Replace the file that is there.")
def command(
    file: Path, key: Key | None, title: str | None, minor: MinorWay, plain: PlainWay, out: Path | None,
    force: bool,
) -> None:  # fmt: skip
    """Turn bars of letter chords between | into numbers, in the settled layout.

    Headings, words under bars, repeats and endings come along. What a chart cannot hold is told on the
    error stream.
    """
    from fifthwise.chart import ChartFaults, write_chart
    from fifthwise.exchange import read_letter_chart

    reading = read_letter_chart(
        read_text(file), file.name, key, title=title, numbering=Numbering(minor, plain)
    )
    if reading.faults:
        raise ChartFaults(reading.faults)
    text = write_chart(reading.chart)
    if out is None:
        tell_notices(reading)
        click.echo(text, nl=False)
        return
    if out.exists() and not force:
        raise FileFault("the file is there already", str(out), "Name another, or add --force")
    write_file(out, text.encode())
    tell_notices(reading)
    click.echo(f"{reading.chart.title} in {reading.chart.key}: {out}")
