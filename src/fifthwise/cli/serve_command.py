"""``fifthwise serve``: the workbench in the browser."""

import click

__all__ = ["command"]

EXAMPLES = """\b
Examples:
  fifthwise serve
  fifthwise serve --book band.sqlite --port 8080
"""
PORT = 5151


@click.command("serve", short_help="The workbench in the browser.", epilog=EXAMPLES)
@click.option("--book", "place", help="The book: a file, or a database's address.")
@click.option("--port", type=click.IntRange(0, 65535), default=PORT, show_default=True, help="The port.")
def command(place: str | None, port: int) -> None:
    """Open the workbench on this computer; nobody else can reach it."""
    import uvicorn

    from fifthwise.book import open_book
    from fifthwise.web import make_app

    with open_book(place or "book.sqlite") as book:
        click.echo(f"The workbench is open at http://127.0.0.1:{port} – stop it with Ctrl+C.")
        uvicorn.run(make_app(book), host="127.0.0.1", port=port, log_level="warning")
