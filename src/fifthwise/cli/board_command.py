"""``fifthwise board``: the fingerboard in a key."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from fifthwise.cli.options import KEY, numbering_options
from fifthwise.files import write_file
from fifthwise.strings import LEVELS, Instrument, Level, instrument_of, read_position, tuned
from fifthwise.theory import Key, MinorWay, Numbering, PlainWay, read_chord

if TYPE_CHECKING:
    from fifthwise.page import BoardSubject, BoardView, Paper

__all__ = ["command"]

MOST_STOPS = 24
KINDS = (".svg", ".pdf", ".png", ".txt")
EXAMPLES = """\b
Examples:
  fifthwise board Ab --instrument viola
  fifthwise board Bb --chord 6- --out board.svg
  fifthwise board Eb --anchors
  fifthwise board A --tuning AEAE --horizontal --out board.pdf
"""


@click.command("board", short_help="The fingerboard: degrees, chords, anchors.", epilog=EXAMPLES)
@click.argument("key", type=KEY)
@click.option(
    "--instrument", "-i", "name", default="violin", show_default=True, help="Its name, as in viola."
)
@click.option("--tuning", help="Its strings, low to high, as in AEAE or 'A3 E4 A4 E5'.")
@click.option("--chord", help="The chord whose notes stand out, as in 6- or Gm.")
@click.option("--anchors", is_flag=True, help="The way from 1 to 5, 4 and 6-, and nothing else.")
@click.option("--level", type=click.Choice(LEVELS), default="first", show_default=True, help="How far up.")
@click.option("--position", help="The hand at the side, as in third, 'low second' or 3.")
@click.option("--stops", type=click.IntRange(1, MOST_STOPS), help="Half steps to draw.")
@click.option("--harmonics", is_flag=True, help="Natural harmonics too.")
@click.option("--mm", is_flag=True, help="Distances from the nut.")
@click.option("--horizontal", is_flag=True, help="The nut at the left.")
@numbering_options
@click.option(
    "--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True, help="For PDF."
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Where to: .svg, .pdf, .png or .txt; otherwise as text here.",
)
def command(
    key: Key, name: str, tuning: str | None, chord: str | None, anchors: bool, level: Level,
    position: str | None, stops: int | None, harmonics: bool, mm: bool, horizontal: bool, minor: MinorWay,
    plain: PlainWay, paper: "Paper", out: Path | None,
) -> None:  # fmt: skip
    """Show where a key's degrees lie on an instrument."""
    from fifthwise.page import BoardSubject, BoardView

    if anchors and (chord or position):
        raise click.UsageError("--anchors looks for its own hand: leave out --chord and --position.")
    kind = _kind(out)
    numbering = Numbering(minor, plain)
    instrument = _instrument(name, tuning)
    view = BoardView(
        None if chord is None else read_chord(chord, key, numbering),
        level,
        None if position is None else read_position(instrument, position),
        stops, anchors, None, harmonics, mm, horizontal,
    )  # fmt: skip
    content = _content(BoardSubject(instrument, key, numbering), view, kind, paper)
    if out is None:
        click.echo(content.decode(), nl=False)
    else:
        write_file(out, content)
        click.echo(f"{key} on the {instrument.label.lower()}: {out}")


def _kind(out: Path | None) -> str:
    if out is None:
        return ".txt"
    kind = out.suffix.lower()
    if kind not in KINDS:
        raise click.UsageError(f"'{out.name}' ends in no kind of picture: name it .svg, .pdf, .png or .txt.")
    return kind


def _instrument(name: str, tuning: str | None) -> Instrument:
    instrument = instrument_of(name)
    return instrument if tuning is None else tuned(instrument, tuning)


def _content(subject: "BoardSubject", view: "BoardView", kind: str, paper: "Paper") -> bytes:
    from fifthwise.page import board_record, board_svg, board_text, book_pages, book_pictures

    if kind == ".svg":
        return board_svg(subject, view).encode()
    if kind == ".txt":
        return board_text(subject, view).encode()
    record = board_record(subject, view)
    if kind == ".pdf":
        return book_pages([record], paper=paper, title=record["title"])
    (picture,) = book_pictures([record], paper=paper, title=record["title"])
    return picture
