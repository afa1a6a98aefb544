"""One import under way: its book, its files, and what has become of each so far."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from fifthwise.book.engine import Book
from fifthwise.book.folder_files import FailedFile, FolderFiles, as_faults
from fifthwise.chart import Fault
from fifthwise.errors import FifthwiseError

__all__ = ["Coming"]


@dataclass(slots=True)
class Coming:
    """One import under way.

    Attributes
    ----------
    on_file : callable
        Told of each file that is done with.
    """

    book: Book
    files: FolderFiles
    on_file: Callable[[str, int], None]
    kept: list[str] = field(default_factory=list)
    unchanged: list[str] = field(default_factory=list)

    def done(self, path: str, *, changed: bool) -> None:
        """A file was good."""
        (self.kept if changed else self.unchanged).append(path)
        self.note(path)

    def failed(self, path: str, error: FifthwiseError) -> None:
        """A file cannot be kept."""
        self.failed_by(path, as_faults(error, path))

    def failed_by(self, path: str, faults: Iterable[Fault]) -> None:
        """A file has these faults."""
        self.files.failed.append(FailedFile(path, tuple(faults)))
        self.note(path)

    def note(self, path: str) -> None:
        """A file is done with."""
        self.on_file(path, self.files.count)
