"""``fifthwise check``: the faults of chart and evening files."""

import json
from dataclasses import asdict
from pathlib import Path

import click

from fifthwise.chart import Fault, TextFaults, read_chart
from fifthwise.cli.evenings import load_tonight
from fifthwise.cli.files import read_text
from fifthwise.cli.options import json_option
from fifthwise.files import FileFault

__all__ = ["command"]

MOST_TOLD = 50

EXAMPLES = """\b
Example:
  fifthwise check songs/*.chart.md
"""


@click.command("check", short_help="Faults of chart files.", epilog=EXAMPLES)
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@json_option
@click.pass_context
def command(ctx: click.Context, files: tuple[Path, ...], for_machine: bool) -> None:
    """Read chart (.chart.md) and evening (.set.yaml) files, and say everything that is wrong with them.

    An evening is read with the charts that it names.

    Exits with 0 where all are sound, with 2 where any has a fault.
    """
    found = {path: _check(path) for path in files}
    if for_machine:
        records = [
            {
                "file": str(path),
                "faults": [asdict(f) for f in faults],
                "notices": [asdict(n) for n in notices],
            }
            for path, (faults, notices) in found.items()
        ]
        click.echo(json.dumps(records, indent=2, ensure_ascii=False))
    else:
        for path, (faults, notices) in found.items():
            _tell(path, faults, notices)
    if any(faults for faults, _ in found.values()):
        ctx.exit(2)


def _check(path: Path) -> tuple[tuple[Fault, ...], tuple[Fault, ...]]:
    """A file's faults and notices."""
    try:
        if path.name.endswith((".yaml", ".yml")):
            load_tonight(path)
            return (), ()
        text = read_text(path)
    except TextFaults as fault:
        return fault.faults, ()
    except FileFault as fault:
        return (Fault(fault.what, fault.fix, 1, 1, 1, "", str(path)),), ()
    reading = read_chart(text, path.name)
    return reading.faults, reading.notices


def _tell(path: Path, faults: tuple[Fault, ...], notices: tuple[Fault, ...]) -> None:
    for fault in faults[:MOST_TOLD]:
        click.echo(str(fault), err=True)
    if len(faults) > MOST_TOLD:
        click.echo(f"… and {len(faults) - MOST_TOLD} more; --json tells all", err=True)
    for notice in notices:
        click.echo(f"notice: {notice}", err=True)
    if not faults:
        click.echo(f"{path}: sound")
    else:
        click.echo(f"{path}: {len(faults)} fault{'' if len(faults) == 1 else 's'}")
