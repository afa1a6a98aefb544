"""What a look through a book finds."""

from dataclasses import dataclass

__all__ = ["Finding"]


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong with a book.

    Attributes
    ----------
    what, where, fix : str
        As in a fault: what is wrong, of what, and how to mend it.
    """

    what: str
    where: str
    fix: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what}. {self.fix}."
