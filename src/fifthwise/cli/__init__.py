"""The ``fifthwise`` command."""

from fifthwise.cli.main import main

__all__ = ["main"]
