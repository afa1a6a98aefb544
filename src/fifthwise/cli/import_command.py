"""``fifthwise import``: songs out of other people's files, as chart text or into the book."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from fifthwise.cli.book_place import book_option
from fifthwise.cli.options import KEY
from fifthwise.theory import MINOR_WAYS, PLAIN_WAYS, Key, MinorWay, PlainWay

if TYPE_CHECKING:
    from fifthwise.cli.imports import Target

__all__ = ["command"]

TEXTS = (".md", ".txt")
EXAMPLES = """\b
Examples:
  fifthwise import song.txt --key G
  fifthwise import song.txt --key Em --minor from-one --out song.chart.md
  fifthwise import score.musicxml --part P2 --out song.chart.md
  fifthwise import *.musicxml *.txt --out charts
  fifthwise import *.mxl --keep
"""


@click.command("import", short_help="Songs of other files to chart text, or into the book.", epilog=EXAMPLES)
@click.argument("files", metavar="FILE...", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--key", "-k", type=KEY, help="The key, where a file does not say it or says it wrong.")
@click.option("--part", help="Which line of a score is the tune.")
@click.option("--numbers", help="How a number sheet is typed, as in 'plain=scale, slash=chord'.")
@click.option("--bars", help="How long the chords of a sheet without bar lines last.")
@click.option("--title", help="The title, whatever the file says.")
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
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Where to: a file such as song.chart.md, or a folder; one song without it is shown here.",
)
@click.option("--keep", is_flag=True, help="Keep the songs in the book.")
@book_option
@click.option("--force", is_flag=True, help="Replace files that are there.")
@click.pass_context
def command(
    ctx: click.Context, files: tuple[Path, ...], key: Key | None, part: str | None, numbers: str | None,
    bars: str | None, title: str | None, minor: MinorWay, plain: PlainWay, out: Path | None, keep: bool,
    place: str | None, force: bool,
) -> None:  # fmt: skip
    """Read songs out of files, whatever they are: MusicXML, JSON, chart text, charts typed in letters.

    What a file is, its content says. What a song cannot hold, and what was settled or guessed, is told on the
    error stream, with the option that settles it otherwise. A file at fault is told and the others go on; the
    exit code is then 2.
    """
    from fifthwise.cli.imports import take_in
    from fifthwise.exchange import Wish

    target = _target(files, out, keep=keep or place is not None, place=place, force=force)
    if not take_in(files, Wish(part, key, title, minor, plain, _settled(numbers), bars), target):
        ctx.exit(2)


def _settled(numbers: str | None) -> tuple[tuple[str, str], ...]:
    """Choices of a convention, each as ``plain=scale``."""
    from fifthwise.exchange.numbers import DIMENSIONS

    found = []
    for each in (numbers or "").split(","):
        name, _, way = (part.strip() for part in each.partition("="))
        if not each.strip():
            continue
        if way not in DIMENSIONS.get(name, ()):
            ways = DIMENSIONS.get(name)
            known = f"{name}={'|'.join(ways)}" if ways else ", ".join(DIMENSIONS)
            raise click.UsageError(f"--numbers knows no '{each.strip()}'; it knows {known}.")
        found.append((name, way))
    return tuple(found)


def _target(
    files: tuple[Path, ...], out: Path | None, *, keep: bool, place: str | None, force: bool
) -> "Target":
    from fifthwise.cli.import_targets import InBook, InFile, InFolder, OnScreen

    if keep and out is not None:
        raise click.UsageError("--out writes files and --keep keeps songs in the book: use one of them.")
    if keep:
        return InBook(place)
    if out is None:
        if len(files) > 1:
            raise click.UsageError("Several files need a place: --out FOLDER, or --keep.")
        return OnScreen()
    # A name with an ending is a file's, as in song.chart.md, unless a folder is called so.
    if len(files) == 1 and out.suffix and not out.is_dir():
        return InFile(out, force=force)
    if out.suffix in TEXTS and not out.is_dir():
        raise click.UsageError(
            f"'{out.name}' is a file's name; several files need a folder, as in --out charts."
        )
    return InFolder(out, force=force)
