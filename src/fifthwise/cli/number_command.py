"""``fifthwise number``: chords to numbers."""

import click

from fifthwise.cli.options import json_option, key_option, numbering_options
from fifthwise.cli.progression import as_json, convert
from fifthwise.theory import Key, MinorWay, Numbering, PlainWay, write_number, write_roman

__all__ = ["command"]

EXAMPLES = """\b
Examples:
  fifthwise number "G C D/F# Em7 F D" --key G     1 4 5/7 6-7 b7 5
  fifthwise number "Am | F | C | G" --key Am --minor from-one
"""


@click.command("number", short_help="Chords to numbers.", epilog=EXAMPLES)
@click.argument("chords", nargs=-1, required=True)
@key_option
@numbering_options
@click.option("--roman", is_flag=True, help="Write Roman numerals.")
@json_option
def command(
    chords: tuple[str, ...], key: Key, minor: MinorWay, plain: PlainWay, roman: bool, for_machine: bool
) -> None:
    """Write chords as numbers of a key."""
    text, numbering = " ".join(chords), Numbering(minor, plain)
    if for_machine:
        click.echo(as_json(text, key, numbering))
        return
    lowers = numbering.lowers(key)
    scale = numbering.scale(key) if plain == "diatonic" else ()
    if roman:
        click.echo(convert(text, key, numbering, lambda chord: write_roman(chord, lowers=lowers)))
    else:
        click.echo(
            convert(text, key, numbering, lambda chord: write_number(chord, scale=scale, lowers=lowers))
        )
