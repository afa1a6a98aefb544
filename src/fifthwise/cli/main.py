"""The command's front door: which subcommands there are, loaded only when they are called."""

import importlib
import sys

import click

from fifthwise import __version__

__all__ = ["main"]

# The subcommands as they are listed, so that help need not import them.
COMMANDS = {
    "number": "Chords to numbers.",
    "letters": "Numbers to chords.",
    "page": "One song's page: PDF, HTML or text.",
    "keys": "The keys that suit a singer.",
    "finger": "The best fingers for a line.",
    "comp": "A line to play under a song, with its fingers.",
    "advice": "What to play over a song.",
    "import": "Songs of other files to chart text, or into the book.",
    "export": "Songs as MusicXML, MIDI, ABC, text or JSON.",
    "board": "The fingerboard: degrees, chords, anchors.",
    "staff": "A song's tune on a staff.",
    "set": "Everyone's book for an evening.",
    "check": "Faults of chart and evening files.",
    "book": "The book: out, in, backed up, checked.",
    "serve": "The workbench in the browser.",
}
FAULT = 2
EXAMPLES = """\b
Examples:
  fifthwise number "G C D/F# Em7 F D" --key G      1 4 5/7 6-7 b7 5
  fifthwise letters "1 4 5/7 6-7 b7 5" --key Ab    Ab Db Eb/G Fm7 Gb Eb
  fifthwise page song.chart.md --key A --out song.pdf
  fifthwise keys song.chart.md --usable F3-D5 --comfort A3-Bb4
  fifthwise finger "5, 6, 1 2 3 (5 3) 1 -" --key Ab --instrument viola
  fifthwise board Ab --instrument viola --anchors
  fifthwise staff song.chart.md --key Ab --for viola --out tune.svg
  fifthwise set evening.set.yaml --out books
"""


class LateGroup(click.Group):
    """A group that imports a subcommand only when it is needed, so that help is quick."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The subcommands in the order in which they are shown."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import one subcommand."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(f"fifthwise.cli.{cmd_name}_command")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the subcommands without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Name the near miss of a command that is not known."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            import difflib

            near = difflib.get_close_matches(args[0], COMMANDS, n=1)
            hint = f"Did you mean '{near[0]}'?" if near else f"Commands are {', '.join(COMMANDS)}."
            raise click.UsageError(f"No command '{args[0]}'. {hint}", ctx)
        return super().resolve_command(ctx, args)


@click.group(cls=LateGroup, epilog=EXAMPLES, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="fifthwise")
def fifthwise() -> None:
    """Number charts, the singer's key, and everyone's page for tonight."""


def main() -> None:
    """Run the command; a fault in the input is said on the error stream and exits with 2."""
    from fifthwise.errors import FifthwiseError

    try:
        code = fifthwise.main(standalone_mode=False)
    except FifthwiseError as fault:
        _fail(str(fault))
    except click.Abort:
        _fail("stopped")
    except click.ClickException as error:
        error.show()
        sys.exit(FAULT)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
    except OSError as error:
        name = f"{error.filename}: " if error.filename else ""
        _fail(f"{name}{error.strerror or error}. Check the name and the permissions.")
    else:
        sys.exit(code if isinstance(code, int) else 0)


def _fail(message: str) -> None:
    click.echo(message, err=True)
    sys.exit(FAULT)
