"""``fifthwise export``: songs for other people's programs."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from fifthwise.cli.files import load_chart
from fifthwise.files import FileFault, write_file

if TYPE_CHECKING:
    from fifthwise.chart import Chart
    from fifthwise.page import PagePart
    from fifthwise.stage import OutKind

__all__ = ["command"]

KINDS = ("musicxml", "mxl", "midi", "abc", "text", "json", "chart")
TEXTS = ("musicxml", "abc", "text", "json", "chart")
SET, ZIP = ".set.yaml", ".zip"
EXAMPLES = """\b
Examples:
  fifthwise export song.chart.md --key A --out song.musicxml
  fifthwise export song.chart.md --as abc
  fifthwise export song.chart.md --for "trumpet in Bb" --numbers --out song.mxl
  fifthwise export evening.set.yaml --as musicxml --as midi --out evening.zip
"""


@dataclass(frozen=True, slots=True)
class _Wish:
    """How songs are to go out."""

    kinds: "tuple[OutKind, ...]"
    as_numbers: bool
    part: "PagePart"
    force: bool


@click.command("export", short_help="Songs as MusicXML, MIDI, ABC, text or JSON.", epilog=EXAMPLES)
@click.argument("files", metavar="FILE...", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--as", "kinds", multiple=True, type=click.Choice(KINDS), help="The kind of file, or several.")
@click.option("--key", "-k", help="The key; a bare note takes the song's mode.")
@click.option("--numbers/--letters", default=False, help="Chords as numbers, or as letters.")
@click.option("--for", "instrument", help="The instrument that reads it, as in 'trumpet in Bb'.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Where to: a file, a folder, or a .zip; one text without it is shown here.",
)
@click.option("--force", is_flag=True, help="Replace files that are there.")
def command(
    files: tuple[Path, ...], kinds: "tuple[OutKind, ...]", key: str | None, numbers: bool,
    instrument: str | None, out: Path | None, force: bool,
) -> None:  # fmt: skip
    """Write charts, or a whole evening in its keys, for other programs.

    JSON and chart text hold all of a song. The other kinds hold what they can; docs/files.md says what.
    """
    _check_name(out, kinds)
    wish = _Wish(kinds or _named(out), numbers, _part(instrument), force)
    charts = [chart for file in files for chart in _charts(file, key)]
    if out is None:
        _show(charts, wish)
    elif out.suffix.lower() == ZIP:
        from fifthwise.stage import export_songs

        packed = export_songs(charts, wish.kinds, as_numbers=wish.as_numbers, part=wish.part)
        _write(out, packed, force=force)
        click.echo(f"{_counted(len(charts))}: {out}")
    elif len(charts) == 1 and len(wish.kinds) == 1 and out.suffix and not out.is_dir():
        _write(out, _made(charts[0], wish.kinds[0], wish), force=force)
        click.echo(f"{charts[0].title} in {charts[0].key}: {out}")
    else:
        _write_folder(charts, wish, out)


def _check_name(out: Path | None, kinds: "tuple[OutKind, ...]") -> None:
    """A file's name says what is in it."""
    from fifthwise.stage import OUT_WAYS

    if out is None or not out.suffix or out.is_dir() or out.suffix.lower() == ZIP:
        return
    endings = {way.kind: way.ending for way in OUT_WAYS.values()}
    fitting = [kind for kind, ending in endings.items() if out.name.lower().endswith(ending)]
    if not fitting:
        known = ", ".join((*endings.values(), ZIP))
        raise click.UsageError(f"'{out.name}' ends in no kind of file that goes out: {known}.")
    if len(kinds) == 1 and kinds[0] not in fitting:
        raise click.UsageError(f"'{out.name}' is no name for --as {kinds[0]}: end it in {endings[kinds[0]]}.")
    if len(kinds) > 1:
        raise click.UsageError("Several kinds need a folder, or a .zip.")


def _part(instrument: str | None) -> "PagePart":
    """How an instrument reads; without one, concert pitch."""
    from fifthwise.evening import part_of
    from fifthwise.page import PagePart

    if instrument is None:
        return PagePart()
    part = part_of(instrument)
    return PagePart(part.label, part.written, clef=part.clef)


def _named(out: Path | None) -> "tuple[OutKind, ...]":
    """The kind that a file's name asks for; MusicXML where it asks for none."""
    from fifthwise.stage import OUT_WAYS

    name = "" if out is None else out.name.lower()
    return next(((way.kind,) for way in OUT_WAYS.values() if name.endswith(way.ending)), ("musicxml",))


def _charts(file: Path, key: str | None) -> "list[Chart]":
    """A chart in the key that is asked for, or an evening's in theirs."""
    if not file.name.endswith(SET):
        from fifthwise.chart import rekey
        from fifthwise.stage import key_as_called

        chart = load_chart(file)
        return [rekey(chart, key_as_called(key, chart).tonic) if key else chart]
    if key:
        raise click.UsageError("An evening says its own keys: leave --key out.")
    from fifthwise.cli.evenings import load_tonight

    return [call.chart for call in load_tonight(file).calls]


def _made(chart: "Chart", kind: "OutKind", wish: _Wish) -> bytes:
    from fifthwise.stage import export_song

    return export_song(chart, kind, as_numbers=wish.as_numbers, part=wish.part)


def _show(charts: "list[Chart]", wish: _Wish) -> None:
    if len(charts) > 1 or len(wish.kinds) > 1:
        raise click.UsageError("Several files need a place: --out FOLDER, or --out songs.zip.")
    (kind,) = wish.kinds
    if kind not in TEXTS:
        raise click.UsageError(f"'{kind}' is no text to be shown: name a file with --out.")
    click.echo(_made(charts[0], kind, wish).decode(), nl=False)


def _write_folder(charts: "list[Chart]", wish: _Wish, folder: Path) -> None:
    """A file a song and kind; nothing is written where one stands in the way."""
    from fifthwise.evening import file_names
    from fifthwise.stage import OUT_WAYS

    names = file_names(chart.title for chart in charts)
    places = {
        folder / f"{name}{OUT_WAYS[kind].ending}": (chart, kind)
        for name, chart in zip(names, charts, strict=True)
        for kind in wish.kinds
    }
    there = next((place for place in places if place.exists()), None)
    if there is not None and not wish.force:
        raise FileFault("the file is there already", str(there), "Name another folder, or add --force")
    folder.mkdir(parents=True, exist_ok=True)
    for place, (chart, kind) in places.items():
        write_file(place, _made(chart, kind, wish))
        click.echo(f"{chart.title} in {chart.key}: {place}")


def _write(out: Path, content: bytes, *, force: bool) -> None:
    if out.exists() and not force:
        raise FileFault("the file is there already", str(out), "Name another, or add --force")
    write_file(out, content)


def _counted(songs: int) -> str:
    return "1 song" if songs == 1 else f"{songs} songs"
