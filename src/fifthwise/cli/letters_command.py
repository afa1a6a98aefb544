"""``fifthwise letters``: numbers to chords."""

import click

from fifthwise.cli.options import json_option, key_option, numbering_options
from fifthwise.cli.progression import as_json, convert
from fifthwise.theory import (
    Key,
    MinorWay,
    NumberChord,
    Numbering,
    PlainWay,
    player_reading,
    to_letters,
    write_letters,
)

__all__ = ["command"]

EXAMPLES = """\b
Examples:
  fifthwise letters "1 4 5/7 6-7 b7 5" --key Ab    Ab Db Eb/G Fm7 Gb Eb
  fifthwise letters "1 b7 b3" --key Gb --easy      Gb E A
"""


@click.command("letters", short_help="Numbers to chords.", epilog=EXAMPLES)
@click.argument("chords", nargs=-1, required=True)
@key_option
@numbering_options
@click.option("--easy", is_flag=True, help="Respell awkward chords as a player would rather read them.")
@json_option
def command(
    chords: tuple[str, ...], key: Key, minor: MinorWay, plain: PlainWay, easy: bool, for_machine: bool
) -> None:
    """Write numbers (or Roman numerals) as chords of a key."""
    text, numbering = " ".join(chords), Numbering(minor, plain)
    if for_machine:
        click.echo(as_json(text, key, numbering))
        return
    one = numbering.one(key)

    def write(chord: NumberChord) -> str:
        letters = to_letters(chord, one)
        return write_letters(player_reading(letters, key) if easy else letters)

    click.echo(convert(text, key, numbering, write))
