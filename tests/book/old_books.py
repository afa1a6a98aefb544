"""Books as earlier versions made them."""

from alembic import command
from alembic.config import Config

from fifthwise.book.engine import make_book, writing
from fifthwise.book.schema import MIGRATIONS

__all__ = ["brought_to"]


def brought_to(place, revision):
    """A new book of an earlier shape."""
    book = make_book(place, 5000)
    with writing(book) as connection:
        config = Config(attributes={"connection": connection})
        config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
        config.set_main_option("path_separator", "os")
        command.upgrade(config, revision)
    return book
