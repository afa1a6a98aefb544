"""Texts of other people's files in one line, without signs that a page does not have."""

__all__ = ["one_line", "plain_line", "plain_words"]

MOST_WORDS = 200


def one_line(text: str) -> str:
    """A text in one line, without the private signs of a music font and others that no page has."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())


def plain_line(text: str) -> str:
    """One line of at most ``MOST_WORDS`` signs."""
    return one_line(text)[:MOST_WORDS].strip()


def plain_words(text: str) -> str:
    """Words as they stand between a chart's quotes: one line, without quotes, and to no player by name."""
    return plain_line(text.replace('"', "'").lstrip("@ \t\r\n"))
