"""Where songs go that are brought in: the screen, a file, a folder, the book."""

from collections.abc import Sequence
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Protocol, Self

import click

from fifthwise.cli.book_place import book_place
from fifthwise.exchange import FoundSong
from fifthwise.files import FileFault, write_file

if TYPE_CHECKING:
    from fifthwise.book import Book

__all__ = ["InBook", "InFile", "InFolder", "OnScreen", "Target"]

SEVERAL = "Name a folder, as in --out charts, or --keep them"


class Target(Protocol):
    """A place for songs; a file's songs are put there together, all or none."""

    def __enter__(self) -> Self: ...

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None: ...

    def put(self, songs: Sequence[FoundSong], file: Path) -> None:
        """Put the songs of one file there, and say where they are."""


class _Target:
    """What needs neither opening nor closing."""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        return None


class OnScreen(_Target):
    """The chart text itself, on the output."""

    def put(self, songs: Sequence[FoundSong], file: Path) -> None:
        """Show the one song."""
        click.echo(_only(songs, file).text, nl=False)


class InFile(_Target):
    """One named file."""

    def __init__(self, out: Path, *, force: bool) -> None:
        self.out, self.force = out, force

    def put(self, songs: Sequence[FoundSong], file: Path) -> None:
        """Write the one song."""
        song = _only(songs, file)
        if self.out.exists() and not self.force:
            raise FileFault("the file is there already", str(self.out), "Name another, or add --force")
        write_file(self.out, song.text.encode())
        click.echo(f"{song.chart.title} in {song.chart.key}: {self.out}")


class InFolder(_Target):
    """A folder, made where it is missing; each song is a file named by its title."""

    def __init__(self, folder: Path, *, force: bool) -> None:
        self.folder, self.force = folder, force
        self.taken: list[str] = []

    def put(self, songs: Sequence[FoundSong], file: Path) -> None:
        """Write a file a song, once it is known that none stands in the way."""
        from fifthwise.evening import file_names

        titles = [song.chart.title for song in songs]
        names = file_names(titles, taken=self.taken)
        places = [self.folder / f"{name}.chart.md" for name in names]
        there = [place for place in places if place.exists()]
        if there and not self.force:
            raise FileFault("the file is there already", str(there[0]), "Name another folder, or add --force")
        self._make()
        self.taken += names
        for song, place in zip(songs, places, strict=True):
            write_file(place, song.text.encode())
            click.echo(f"{song.chart.title} in {song.chart.key}: {place}")

    def _make(self) -> None:
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            what = f"the folder cannot be made ({error.strerror})"
            raise FileFault(what, str(self.folder), "Name another, or check its permissions") from error


class InBook:
    """The book; a song that it has word for word is not kept twice."""

    def __init__(self, place: str | None) -> None:
        self.place = place
        self.book: Book | None = None

    def __enter__(self) -> Self:
        from fifthwise.book import open_book

        self.opened = open_book(book_place(self.place))
        self.book = self.opened.__enter__()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.opened.__exit__(kind, error, trace)

    def put(self, songs: Sequence[FoundSong], file: Path) -> None:
        """Keep the songs."""
        from fifthwise.book import add_song, same_text

        assert self.book is not None
        for found in songs:
            named = f"{found.chart.title} in {found.chart.key}"
            if same_text(self.book, found.chart.title, found.text):
                click.echo(f"{named}: in the book already")
            else:
                click.echo(f"{named}: song {add_song(self.book, found.text).id} of the book")


def _only(songs: Sequence[FoundSong], file: Path) -> FoundSong:
    if len(songs) > 1:
        raise FileFault(f"there are {len(songs)} songs in it", str(file), SEVERAL)
    return songs[0]
