"""The one base class of every fault that fifthwise reports."""

__all__ = ["FifthwiseError"]


class FifthwiseError(Exception):
    """A fault in the input, said so that the player can mend it.

    Parameters
    ----------
    what : str
        What is wrong, without a full stop.
    where : str
        The file, place or value that is at fault.
    fix : str
        How to mend it, without a full stop; a question keeps its mark.
    """

    def __init__(self, what: str, where: str, fix: str) -> None:
        super().__init__(what, where, fix)
        self.what, self.where, self.fix = what, where, fix

    def __str__(self) -> str:
        stop = "" if self.fix.endswith("?") else "."
        return f"{self.where}: {self.what}. {self.fix}{stop}"
