"""``fifthwise set``: everyone's book for an evening."""

from pathlib import Path

import click

from fifthwise.cli.files import tell_unprintable
from fifthwise.files import check_folder, write_folder

__all__ = ["command"]

EXAMPLES = """\b
Example:
  fifthwise set evening.set.yaml --out books
"""


@click.command("set", short_help="Everyone's book for an evening.", epilog=EXAMPLES)
@click.argument("evening", type=click.Path(path_type=Path))
@click.option("--out", type=click.Path(path_type=Path), required=True, help="The folder for the books.")
@click.option("--staff", is_flag=True, help="The tune on a staff too, for instruments that play tunes.")
@click.option("--force", is_flag=True, help="Replace files that fifthwise did not write.")
def command(evening: Path, out: Path, staff: bool, force: bool) -> None:
    """Make each player's book, each singer's lyric sheets and pictures, the key sheet and a summary.

    A song without a key gets the one that suits its singer best. Only earlier output of this command is
    replaced; the folder may hold notes of your own.
    """
    from fifthwise.cli.evenings import load_tonight
    from fifthwise.stage import books, notices, print_books

    tonight = load_tonight(evening)
    made = books(tonight, staff=staff)
    check_folder(out, [book.path for book in made], force=force)
    for notice in notices(tonight):
        click.echo(f"notice: {notice}.", err=True)
    tell_unprintable(*(call.chart for call in tonight.calls))
    with click.progressbar(
        length=len(made), label="Making the books", item_show_func=_shown, show_pos=True
    ) as bar:
        files = print_books(made, on_done=lambda label: bar.update(1, label))
    write_folder(out, files, force=force)
    click.echo(f"{len(files)} files in {out}; begin with {out / 'summary.md'}")


def _shown(label: str | None) -> str | None:
    return label
