"""``fifthwise keys``: the keys that suit a singer."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from fifthwise.cli.files import load_chart, read_text
from fifthwise.cli.options import json_option

if TYPE_CHECKING:
    from fifthwise.voice import KeyFit, Singer

__all__ = ["command"]

REASONED = 3  # keys whose reasons are told
HEAD = ("key", "sung", "in comfort", "room above/below", "open strings", "capo", "Bb horn")

EXAMPLES = """\b
Examples:
  fifthwise keys song.chart.md --usable F3-D5 --comfort A3-Bb4
  fifthwise keys song.chart.md --singer Maren --set evening.set.yaml --json
"""


@click.command("keys", short_help="The keys that suit a singer.", epilog=EXAMPLES)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--singer", help="The singer's name in the evening given by --set.")
@click.option(
    "--set", "evening", type=click.Path(path_type=Path), help="An evening (.set.yaml) that has the singer."
)
@click.option("--usable", help="Lowest and highest note, as in F3-D5.")
@click.option("--comfort", help="What is easy all evening, as in A3-Bb4.")
@click.option("--turns", help="Change-over notes, as in 'D4 F4'.")
@json_option
def command(
    file: Path, singer: str | None, evening: Path | None, usable: str | None, comfort: str | None,
    turns: str | None, for_machine: bool,
) -> None:  # fmt: skip
    """Rank all keys for a singer and a song, and say why.

    Ranges are asked for, never guessed from a voice type: octave 4 begins at middle C.
    """
    from fifthwise.chart import unfold
    from fifthwise.voice import fit_record, rank_keys, sung_tune

    who = _singer(singer, evening, usable, comfort, turns)
    chart = load_chart(file)
    tune = sung_tune(chart, unfold(chart))
    fits = rank_keys(tune, who)
    if for_machine:
        keys = [fit_record(fit) for fit in fits]
        record = {"title": chart.title, "singer": who.name, "written": chart.key.short, "keys": keys}
        click.echo(json.dumps(record, indent=2, ensure_ascii=False))
    else:
        _tell(chart.title, who.name, fits)


def _singer(
    singer: str | None, evening: Path | None, usable: str | None, comfort: str | None, turns: str | None
) -> "Singer":
    """The singer named in an evening, or described by the options."""
    from fifthwise.evening import read_evening
    from fifthwise.voice import read_singer

    if evening is None:
        if usable is None or comfort is None:
            raise click.UsageError(
                "Give the singer's ranges: --usable F3-D5 --comfort A3-Bb4, or --singer with --set."
            )
        return read_singer(singer or "the singer", usable=usable, comfort=comfort, turns=turns)
    if singer is None:
        raise click.UsageError("Say which singer of the evening: --singer NAME.")
    known = {each.name: each for each in read_evening(read_text(evening), evening.name).singers}
    if singer not in known:
        raise click.UsageError(
            f"No singer '{singer}' in {evening.name}. It has {', '.join(known) or 'none'}."
        )
    return known[singer]


def _tell(title: str, singer: str, fits: tuple["KeyFit", ...]) -> None:
    """The ranking as a table, the best keys with their reasons."""
    click.echo(f"{title}, for {singer}\n")
    rows = [HEAD, *map(_row, fits)]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        click.echo("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip())
    for fit in fits[:REASONED]:
        click.echo(f"\n{_name(fit)}")
        for reason in fit.reasons:
            click.echo(f"  {reason}.")


def _name(fit: "KeyFit") -> str:
    return fit.key.short if fit.also is None else f"{fit.key.short} or {fit.also.short}"


def _row(fit: "KeyFit") -> tuple[str, ...]:
    sitting, band = fit.sitting, fit.band
    capo = "none" if band.capo is None else f"{band.capo} {band.shape}"
    strings = " ".join(str(note) for note in band.open_strings) or "none"
    room = f"{sitting.upper_reserve:+d} / {sitting.lower_reserve:+d}"
    sung = f"{fit.bottom} to {fit.top}"
    return _name(fit), sung, f"{sitting.in_comfort:.0%}", room, strings, capo, band.horns[0].key.short
