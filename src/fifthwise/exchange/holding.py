"""What holds in a chart in letters from a place on: its key, metre, tempo and feel.

On such a sheet a change holds till the next one; in chart text a section begins anew with what the head says.
So a change is stated again at the start of every section.
"""

from dataclasses import dataclass, field

from fifthwise.exchange.placed import Piece

__all__ = ["HELD", "Holding"]

HELD = ("key", "meter", "tempo", "feel")


@dataclass(slots=True)
class Holding:
    """What the head says, what the sheet has said since, and what chart text would take to hold here."""

    head: dict[str, str]
    said: dict[str, Piece] = field(default_factory=dict)
    taken: dict[str, str] = field(default_factory=dict)
    before_ending: dict[str, str] | None = None

    def say(self, name: str, value: Piece) -> None:
        """A change on the sheet."""
        self.said[name] = value

    def value(self, name: str) -> str:
        """What holds on the sheet."""
        return self.said[name].text if name in self.said else self.head.get(name, "")

    def open_section(self) -> None:
        """Chart text begins anew from the head."""
        self.taken, self.before_ending = {}, None

    def open_ending(self) -> None:
        """What is marked in an ending ends with it."""
        self.before_ending = dict(self.taken)

    def close_ending(self) -> None:
        """A ``:|`` or ``||`` ends an ending."""
        if self.before_ending is not None:
            self.taken, self.before_ending = self.before_ending, None

    def marks(self, line: int, column: int) -> list[Piece]:
        """The marks that the bar at a place needs."""
        found = []
        for name in HELD:
            value = self.value(name)
            if value and value != self.taken.get(name, self.head.get(name, "")):
                self.taken[name] = value
                said = self.said[name] if name in self.said and self.said[name].line == line else None
                at = said or Piece("", line, column, 1)
                found.append(Piece(f"[{name} {value}]", at.line, at.column, at.length))
        return found
