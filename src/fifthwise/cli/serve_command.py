"""``fifthwise serve``: the workbench in the browser."""

import sys
import warnings
from getpass import GetPassWarning
from pathlib import Path
from typing import TYPE_CHECKING

import click

from fifthwise.cli.book_place import book_option, book_place, data_folder

if TYPE_CHECKING:
    from fifthwise.web import Sharing

__all__ = ["command"]

EXAMPLES = """\b
Examples:
  fifthwise serve
  fifthwise serve --book band.sqlite --port 8080
  fifthwise serve --share
"""
PORT = 5151


@click.command("serve", short_help="The workbench in the browser.", epilog=EXAMPLES)
@book_option
@click.option("--port", type=click.IntRange(0, 65534), default=PORT, show_default=True, help="The port.")
@click.option("--share", is_flag=True, help="Let the band in, by HTTPS on the port after this one.")
@click.option("--new-password", is_flag=True, help="Set the leader's password anew.")
@click.option(
    "--password-file", type=click.Path(path_type=Path), help="A file with the leader's password, for scripts."
)
@click.option("--browser/--no-browser", default=True, help="Whether to open your browser too.")
def command(
    place: str | None, port: int, share: bool, new_password: bool, password_file: Path | None, browser: bool
) -> None:
    """Open the workbench in the browser, until Ctrl+C.

    Only this computer reaches it, unless it is shared. A backup is made beside the book once a day.
    """
    from fifthwise.web import open_workbench, serve

    for option, given in (("--password-file", password_file), ("--new-password", new_password)):
        if given and not share:
            raise click.UsageError(f"{option} is for sharing: add --share, or leave it out.")
    sharing = _sharing(port, new_password, password_file) if share else None

    def opened(address: str) -> None:
        click.echo(f"The workbench is open at {address} – stop it with Ctrl+C.")
        for line in _told(sharing):
            click.echo(line)
        if browser and sys.stdout.isatty():
            click.launch(address)

    with open_workbench(book_place(place), sharing, on_notice=_notice) as app:
        serve(app, port, sharing, on_open=opened)


def _notice(words: str) -> None:
    click.echo(f"notice: {words}", err=True)


def _sharing(port: int, new_password: bool, password_file: Path | None) -> "Sharing":
    """Make ready to share; the leader's password is asked for the first time."""
    from fifthwise.cli.files import read_text
    from fifthwise.web import PASSWORD_FILE, open_sharing
    from fifthwise.web.guard import SHORTEST_PASSWORD, keep_password

    folder = data_folder()
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / PASSWORD_FILE
    if password_file is not None:
        keep_password(file, read_text(password_file).strip("\n"))
    elif new_password or not file.exists():
        keep_password(file, _ask(f"A password for the leader, at least {SHORTEST_PASSWORD} signs"))
    return open_sharing(folder, port + 1)


def _ask(words: str) -> str:
    """Ask for a password where nobody can read along."""
    with warnings.catch_warnings():
        # Python's warning that what is typed would be seen: there is no terminal.
        warnings.simplefilter("error", GetPassWarning)
        try:
            return str(click.prompt(words, hide_input=True, confirmation_prompt=True))
        except GetPassWarning as warning:
            raise click.UsageError(
                "There is no terminal to ask for the leader's password. "
                "Write it into a file and add --password-file FILE."
            ) from warning


def _told(sharing: "Sharing | None") -> list[str]:
    if sharing is None:
        return []
    addresses = " or ".join(sharing.addresses) or "no address: this computer is in no network"
    return [f"The band opens {addresses}", f"Their code is {sharing.people.code}."]
