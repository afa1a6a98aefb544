"""``fifthwise book``: the book out to plain files and in again, backed up, looked through, put back."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from fifthwise.cli.book_place import book_option, book_place, old_book_place

if TYPE_CHECKING:
    from fifthwise.book import FailedFile

__all__ = ["command"]

EXAMPLES = """\b
Examples:
  fifthwise book export songs-of-ours
  fifthwise book import songs-of-ours --book band.sqlite
  fifthwise book backup /media/stick/band.sqlite
  fifthwise book check
  fifthwise book put-back
"""


@click.group("book", short_help="The book: out, in, backed up, checked.", epilog=EXAMPLES)
def command() -> None:
    """Keep the book safe, and let it go out to plain files and come in again."""


@command.command("export")
@click.argument("folder", type=click.Path(path_type=Path))
@book_option
@click.option("--force", is_flag=True, help="Replace files that fifthwise did not write.")
def export(folder: Path, place: str | None, force: bool) -> None:
    """Write the whole book into FOLDER: charts, sets, singers, players, and what was sung."""
    from fifthwise.book import export_book, open_book

    with open_book(old_book_place(place)) as book:
        count = export_book(book, folder, force=force)
        click.echo(f"{count} files in {folder}, from {book.where}")


@command.command("import")
@click.argument("folder", type=click.Path(path_type=Path))
@book_option
@click.pass_context
def import_(ctx: click.Context, folder: Path, place: str | None) -> None:
    """Take the charts, sets, singers and players of FOLDER into the book.

    A chart with a title and author that the book has is a new version of that song. What is at fault is told
    and left out; the rest is kept. Exits with 2 where any file is at fault.
    """
    from fifthwise.book import import_folder, open_book

    with (
        open_book(book_place(place)) as book,
        click.progressbar(length=1, label="Reading the files", show_pos=True) as bar,
    ):

        def show(_path: str, count: int) -> None:
            bar.length = count
            bar.update(1)

        report = import_folder(book, folder, show)
    for failed in report.failed:
        _tell(failed)
    kept, unchanged, at_fault = len(report.kept), len(report.unchanged), len(report.failed)
    click.echo(f"{kept} files kept, {unchanged} said nothing new, {at_fault} at fault")
    if report.failed:
        ctx.exit(2)


@command.command("backup")
@click.argument("file", type=click.Path(path_type=Path))
@book_option
def backup_(file: Path, place: str | None) -> None:
    """Copy the book as it is now into FILE; others may go on working in it."""
    from fifthwise.book import backup, open_book

    with open_book(old_book_place(place)) as book:
        backup(book, file)
        click.echo(f"{book.where} is backed up in {file}")


@command.command("check")
@book_option
@click.pass_context
def check(ctx: click.Context, place: str | None) -> None:
    """Look the whole book through, and say what is wrong with it and how to mend it.

    Exits with 0 where all is sound, with 2 otherwise.
    """
    from fifthwise.book import check_book, open_book

    with open_book(old_book_place(place)) as book:
        found = check_book(book)
    for finding in found:
        click.echo(str(finding), err=True)
    if found:
        ctx.exit(2)
    click.echo(f"{book.where}: sound")


@command.command("put-back")
@click.argument("backup", required=False, type=click.Path(path_type=Path))
@book_option
@click.option("--force", is_flag=True, help="Put it back over a book that is not damaged.")
def put_back_(backup: Path | None, place: str | None, force: bool) -> None:
    """Put a BACKUP, otherwise the newest daily one, in the place of a damaged book.

    Stop every fifthwise that has the book open first. What was there is moved aside and kept.
    """
    from fifthwise.book import BackupFault, is_whole, newest_backup, put_back

    where = book_place(place)
    newest = newest_backup(where)
    chosen = backup or (newest.path if newest else None)
    if chosen is None:
        raise click.UsageError(f"There is no daily backup of {where}. Name one: fifthwise book put-back FILE")
    if not force and is_whole(where):
        fix = f"To go back to {chosen} all the same, add --force; this book is then kept beside it"
        raise BackupFault("this book is not damaged", where, fix)
    aside = put_back(where, chosen)
    click.echo(f"{chosen} is put back as {where}")
    if aside:
        click.echo(f"What was there before is kept as {aside}")


def _tell(failed: "FailedFile") -> None:
    from fifthwise.cli.check_command import MOST_TOLD

    for fault in failed.faults[:MOST_TOLD]:
        click.echo(str(fault), err=True)
    if len(failed.faults) > MOST_TOLD:
        click.echo(f"{failed.path}: … and {len(failed.faults) - MOST_TOLD} more", err=True)
