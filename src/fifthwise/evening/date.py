"""An evening's date: a day as ISO writes it, or words."""

import re
from datetime import date

__all__ = ["ISO_DATE", "is_date"]

ISO_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def is_date(text: str) -> bool:
    """Whether a text may stand as an evening's date: what looks like an ISO date has to be a day."""
    if not ISO_DATE.fullmatch(text):
        return True
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True
