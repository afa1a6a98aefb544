"""Options that several commands share."""

from collections.abc import Callable
from typing import Any, TypeVar

import click

from fifthwise.errors import FifthwiseError
from fifthwise.theory import MINOR_WAYS, PLAIN_WAYS, Key, read_key

__all__ = ["KEY", "json_option", "key_option", "numbering_options"]

Command = TypeVar("Command", bound=Callable[..., Any])


class KeyType(click.ParamType[Key]):
    """A key such as ``Eb``, ``F#m`` or ``D dorian``."""

    name = "KEY"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Key:
        """Read the key, or fail with its fault."""
        if isinstance(value, Key):
            return value
        try:
            return read_key(str(value))
        except FifthwiseError as fault:
            self.fail(str(fault), param, ctx)


KEY = KeyType()


def key_option(command: Command) -> Command:
    """The option ``--key``, required."""
    return click.option("--key", "-k", type=KEY, required=True, help="The key, as in Eb, F#m or 'D dorian'.")(
        command
    )


def numbering_options(command: Command) -> Command:
    """The options ``--minor`` and ``--plain``."""
    plain = click.option(
        "--plain", type=click.Choice(PLAIN_WAYS), default="explicit", show_default=True,
        help="What a plain number means: a major chord, or the scale's own.",
    )  # fmt: skip
    minor = click.option(
        "--minor", type=click.Choice(MINOR_WAYS), default="from-six", show_default=True,
        help="How a minor key counts: home is 6-, or 1- with b3 b6 b7, or 1- with plain 3 6 7.",
    )  # fmt: skip
    return minor(plain(command))


def json_option(command: Command) -> Command:
    """The option ``--json``."""
    return click.option("--json", "for_machine", is_flag=True, help="Write JSON.")(command)
