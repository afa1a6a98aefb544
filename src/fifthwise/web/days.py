"""Days as pages write them."""

from datetime import date

__all__ = ["day_words"]

# Not the system's, which may speak another language than our pages.
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip


def day_words(day: date) -> str:
    """A day in words, with its year unless that is this one: ``5 December``."""
    year = "" if day.year == date.today().year else f" {day.year}"
    return f"{day.day} {MONTHS[day.month - 1]}{year}"
