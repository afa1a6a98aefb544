"""``fifthwise page``: one song's page."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from fifthwise.cli.files import load_chart, tell_unprintable
from fifthwise.cli.part_view import view_for
from fifthwise.files import write_file

if TYPE_CHECKING:
    from fifthwise.chart import Chart
    from fifthwise.page import PageView, Paper, Show

__all__ = ["command"]

NARROW = 2  # bars a row on a telephone
HIGHEST_FRET = 11
EXAMPLES = """\b
Examples:
  fifthwise page song.chart.md
  fifthwise page song.chart.md --key A --out song.pdf
  fifthwise page song.chart.md --key Bb --for guitar --capo 3 --out song.pdf --paper letter
  fifthwise page song.chart.md --for "trumpet in Bb" --show letters --out song.html
  fifthwise page song.chart.md --for viola --staff --out song.pdf
  fifthwise page song.chart.md --lyrics --out words.pdf
"""


@dataclass(frozen=True, slots=True)
class _Wish:
    """What was asked for."""

    chart: "Chart"
    view: "PageView"
    lyrics: bool
    paper: "Paper"


@click.command("page", short_help="One song's page: PDF, HTML or text.", epilog=EXAMPLES)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--key", "-k", help="The key to print it in; a bare note takes the song's mode.")
@click.option(
    "--out", type=click.Path(path_type=Path), help="Where to: .pdf, .html or .txt; otherwise as text here."
)
@click.option(
    "--show", type=click.Choice(["numbers", "letters", "both", "roman"]), help="What stands in the bars."
)
@click.option("--for", "instrument", help="The instrument that reads it, as in 'trumpet in Bb'.")
@click.option(
    "--capo",
    type=click.IntRange(0, HIGHEST_FRET),
    default=0,
    help="A guitar's capo; letters are then shapes.",
)
@click.option(
    "--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True, help="Paper for PDF."
)
@click.option("--tune/--no-tune", default=None, help="The tune's numbers under the bars.")
@click.option("--staff", is_flag=True, help="The tune on a staff after the chart, in PDF and HTML.")
@click.option("--words", is_flag=True, help="The words under the bars.")
@click.option("--lyrics", is_flag=True, help="A singer's sheet: the words, with the chords above.")
def command(
    file: Path, key: str | None, out: Path | None, show: "Show | None", instrument: str | None, capo: int,
    paper: Literal["a4", "letter"], tune: bool | None, staff: bool, words: bool, lyrics: bool,
) -> None:  # fmt: skip
    """Print one song in any key, for any instrument."""
    from fifthwise.chart import rekey
    from fifthwise.stage import key_as_called

    kind = _kind(out)
    chart = load_chart(file)
    if key:
        chart = rekey(chart, key_as_called(key, chart).tonic)
    view = replace(view_for(instrument, show, capo, tune=tune, words=words), staff=staff)
    wish = _Wish(chart, view, lyrics, paper)
    content = {".pdf": _pdf, ".html": _html, ".txt": _text}[kind](wish)
    if out is None:
        click.echo(content.decode(), nl=False)
    else:
        write_file(out, content)
        click.echo(f"{chart.title} in {chart.key}: {out}")


def _kind(out: Path | None) -> str:
    if out is None:
        return ".txt"
    kind = out.suffix.lower()
    if kind not in (".pdf", ".html", ".txt"):
        raise click.UsageError(f"'{out.name}' ends in no kind of page: name it .pdf, .html or .txt.")
    return kind


def _pdf(wish: _Wish) -> bytes:
    from fifthwise.page import book_pages, lyric_sheet, lyrics_record, song_record

    if wish.lyrics:
        record = lyrics_record(lyric_sheet(wish.chart), show=_over_words(wish))
    else:
        record = song_record(wish.chart, wish.view)
    tell_unprintable(wish.chart)
    return book_pages([record], paper=wish.paper, title=wish.chart.title)


def _html(wish: _Wish) -> bytes:
    from fifthwise.page import html_page, lay_out, lyric_sheet, lyrics_html_page
    from fifthwise.page.staff import staff_html, staff_of_chart

    if wish.lyrics:
        return lyrics_html_page(lyric_sheet(wish.chart), show=_over_words(wish)).encode()
    narrow = lay_out(wish.chart, wish.view, columns=NARROW)
    staff = staff_of_chart(wish.chart, wish.view) if wish.view.staff else None
    drawn = staff_html(staff) if staff else None
    return html_page(lay_out(wish.chart, wish.view), narrow, staff=drawn).encode()


def _text(wish: _Wish) -> bytes:
    from fifthwise.page import lay_out, lyric_sheet, lyrics_text, text_page

    if wish.lyrics:
        return lyrics_text(lyric_sheet(wish.chart), letters=_over_words(wish) == "letters").encode()
    return text_page(lay_out(wish.chart, wish.view)).encode()


def _over_words(wish: _Wish) -> Literal["numbers", "letters"]:
    return "letters" if wish.view.show == "letters" else "numbers"
