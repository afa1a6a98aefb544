"""``fifthwise staff``: a song's tune on a staff."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from fifthwise.cli.files import load_chart
from fifthwise.cli.part_view import view_for
from fifthwise.files import write_file

if TYPE_CHECKING:
    from fifthwise.page import Show
    from fifthwise.page.staff import Staff

__all__ = ["command"]

LEAST, MOST = 30, 300
EXAMPLES = """\b
Examples:
  fifthwise staff song.chart.md --out tune.svg
  fifthwise staff song.chart.md --key Ab --for viola --out tune.svg
  fifthwise staff song.chart.md --for "trumpet in Bb" --show letters --out tune.mei
"""


@click.command("staff", short_help="A song's tune on a staff.", epilog=EXAMPLES)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--key", "-k", help="The key to write it in; a bare note takes the song's mode.")
@click.option("--for", "instrument", help="The instrument that reads it, as in viola or 'trumpet in Bb'.")
@click.option(
    "--show", type=click.Choice(["numbers", "letters", "roman"]), help="What stands over the staff."
)
@click.option(
    "--wide", type=click.IntRange(LEAST, MOST), default=112, show_default=True, help="Staff spaces a line."
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Where to: .svg or .mei; otherwise numbers here.",
)
def command(
    file: Path, key: str | None, instrument: str | None, show: "Show | None", wide: int, out: Path | None
) -> None:
    """Write a song's tune as notes, its numbers under them, in any key, for any instrument."""
    from fifthwise.chart import rekey
    from fifthwise.page.staff import staff_of_chart
    from fifthwise.stage import key_as_called

    kind = _kind(out)
    chart = load_chart(file)
    if key:
        chart = rekey(chart, key_as_called(key, chart).tonic)
    staff = staff_of_chart(chart, view_for(instrument, show))
    if staff is None:
        raise click.ClickException(f"{file.name}: the song has no tune. Write it in 'tune:' lines.")
    for told in staff.told:
        click.echo(f"notice: {told}.", err=True)
    content = _content(staff, kind, wide)
    if out is None:
        click.echo(content)
    else:
        write_file(out, content.encode())
        click.echo(f"{staff.title}: {out}")


def _kind(out: Path | None) -> str:
    if out is None:
        return ".txt"
    kind = out.suffix.lower()
    if kind not in (".svg", ".mei"):
        raise click.UsageError(f"'{out.name}' ends in no kind of staff: name it .svg or .mei.")
    return kind


def _content(staff: "Staff", kind: str, wide: int) -> str:
    from fifthwise.page.staff import bars_words, staff_mei, staff_picture

    if kind == ".svg":
        return staff_picture(staff, wide)
    return staff_mei(staff) if kind == ".mei" else bars_words(staff.bars)
