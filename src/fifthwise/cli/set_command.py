"""``fifthwise set``: everyone's book for an evening."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from fifthwise.chart import Chart, ChartFaults, Fault, FormFault, unfold
from fifthwise.cli.files import FileFault, load_chart, read_text, tell_unprintable
from fifthwise.cli.output_folder import check_folder, write_folder

if TYPE_CHECKING:
    from fifthwise.stage import Evening

__all__ = ["command"]

EXAMPLES = """\b
Example:
  fifthwise set evening.set.yaml --out books
"""


@click.command("set", short_help="Everyone's book for an evening.", epilog=EXAMPLES)
@click.argument("evening", type=click.Path(path_type=Path))
@click.option("--out", type=click.Path(path_type=Path), required=True, help="The folder for the books.")
@click.option("--force", is_flag=True, help="Replace files that fifthwise did not write.")
def command(evening: Path, out: Path, force: bool) -> None:
    """Make each player's book, each singer's lyric sheets and pictures, the key sheet and a summary.

    A song without a key gets the one that suits its singer best. Only earlier output of this command is
    replaced; the folder may hold notes of your own.
    """
    from fifthwise.stage import books, plan, read_evening

    tonight_set = read_evening(read_text(evening), evening.name)
    charts = _charts(tonight_set, evening)
    made = books(plan(tonight_set, charts, evening.name))
    check_folder(out, [book.path for book in made], force=force)
    tell_unprintable(*charts.values())
    files = {}
    with click.progressbar(made, label="Making the books", item_show_func=_shown, show_pos=True) as bar:
        for book in bar:
            files[book.path] = book.make()
    write_folder(out, files, force=force)
    click.echo(f"{len(files)} files in {out}; begin with {out / 'summary.md'}")


def _shown(book: object) -> str | None:
    return getattr(book, "label", None)


def _charts(evening: "Evening", file: Path) -> dict[str, Chart]:
    """Read every chart that the evening names; all their faults are told at once."""
    charts: dict[str, Chart] = {}
    faults: list[Fault] = []
    for name in dict.fromkeys(song.chart for song in evening.songs):
        line = next(song.line for song in evening.songs if song.chart == name)
        try:
            charts[name] = load_chart(file.parent / name)
            unfold(charts[name])
        except ChartFaults as found:
            faults += found.faults
        except FormFault as fault:
            faults.append(Fault(fault.what, fault.fix, 1, 1, 1, "", name))
        except FileFault as fault:
            faults.append(Fault(f"{fault.what}: {name}", fault.fix, line, 1, 1, "", file.name))
    if faults:
        raise ChartFaults(tuple(faults))
    return charts
