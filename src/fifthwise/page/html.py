"""Songs as self-contained HTML files: readable without a script, a network or our fonts installed."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from markupsafe import Markup

from fifthwise.page.html_files import environment, page_style
from fifthwise.page.layout_model import Sheet
from fifthwise.page.lyrics_model import LyricSheet
from fifthwise.page.lyrics_record import LyricShow
from fifthwise.page.signs import SIGNS

__all__ = ["SetPage", "Theme", "chart_html", "html_page", "lyrics_html_page", "set_html_page", "signs_html"]

Theme = Literal["paper", "stage"]


@dataclass(frozen=True, slots=True)
class SetPage:
    """One song of an evening in one file.

    Attributes
    ----------
    sheet, narrow : Sheet
        As for `html_page`.
    segue : bool
        Whether the next song follows without a stop.
    """

    sheet: Sheet
    narrow: Sheet
    segue: bool = False


def html_page(
    sheet: Sheet, narrow: Sheet | None = None, *, theme: Theme | None = None, staff: Markup | None = None
) -> str:
    """Write a page for tablets, phones and laptops.

    Parameters
    ----------
    sheet : Sheet
        The song as laid out for a wide screen.
    narrow : Sheet, optional
        The same song laid out with fewer columns, shown instead on a narrow screen.
    theme : {'paper', 'stage'}, optional
        Light or dark; otherwise as the device prefers.
    staff : Markup, optional
        The tune on a staff, from ``staff_html``; it follows the chart.

    Returns
    -------
    str
        HTML with its style and fonts inside. It loads nothing.
    """
    template = environment().get_template("song.html")
    style = Markup(page_style())
    return template.render(song=sheet, narrow=narrow, theme=theme, staff=staff, style=style)


def chart_html(sheet: Sheet, narrow: Sheet | None = None) -> Markup:
    """Write a chart to stand in another page, which brings ``screen_style`` and the fonts.

    Parameters
    ----------
    sheet, narrow : Sheet
        As for `html_page`.

    Returns
    -------
    Markup
        Safe to stand in a template as it is: whatever a user wrote is escaped.
    """
    return Markup(environment().get_template("chart.html").render(song=sheet, narrow=narrow))


def set_html_page(
    songs: Sequence[SetPage], *, name: str, date: str = "", reader: str = "", theme: Theme | None = None
) -> str:
    """Write an evening as one file that needs nothing: the running order, then every song.

    Parameters
    ----------
    songs : sequence of SetPage
        In running order.
    name, date : str
        The evening's name and its date as written.
    reader : str
        Whose page it is.
    """
    template = environment().get_template("set.html")
    return template.render(
        songs=songs, name=name, date=date, reader=reader, theme=theme, style=Markup(page_style())
    )


def lyrics_html_page(sheet: LyricSheet, *, show: LyricShow = "numbers", theme: Theme | None = None) -> str:
    """Write a singer's page for a screen: the words in playing order, chords over them."""
    template = environment().get_template("lyrics.html")
    return template.render(song=sheet, show=show, theme=theme, style=Markup(page_style()))


def signs_html() -> Markup:
    """List every sign that a chart may use, for a help page with ``screen_style``."""
    return Markup(environment().get_template("signs.html").render(signs=SIGNS.items()))
