"""Texts of other people's files in one line, without signs that a page does not have."""

__all__ = ["plain_line", "plain_words"]

MOST_WORDS = 200


def plain_line(text: str) -> str:
    """A text in one line, without the private signs of a music font."""
    kept = "".join(sign if sign.isprintable() else " " for sign in text)
    return " ".join(kept.split())[:MOST_WORDS].strip()


def plain_words(text: str) -> str:
    """Words as they stand between a chart's quotes: one line, without quotes, and to no player by name."""
    return plain_line(text.replace('"', "'").lstrip("@ \t\r\n"))
