"""Days as pages write them."""

from datetime import date

__all__ = ["day_words", "said_day"]

# Not the system's, which may speak another language than our pages.
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def day_words(day: date) -> str:
    """A day in words, with its year unless that is this one: ``5 December``."""
    year = "" if day.year == date.today().year else f" {day.year}"
    return f"{day.day} {MONTHS[day.month - 1]}{year}"


def said_day(day: date, today: date) -> str:
    """A day for a narrow column, as said today: ``yesterday``, ``Saturday``, ``12 May``, ``May 2024``."""
    ago = (today - day).days
    if ago in (0, 1):
        return ("today", "yesterday")[ago]
    if 0 < ago < len(WEEKDAYS):
        return WEEKDAYS[day.weekday()]
    month = MONTHS[day.month - 1]
    return f"{day.day} {month}" if day.year == today.year else f"{month} {day.year}"
