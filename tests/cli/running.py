"""The command run as a user runs it, in a process of its own."""

import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

__all__ = ["Done", "run"]


class Done(NamedTuple):
    """What a run gave."""

    code: int
    out: str
    err: str

    @property
    def lines(self) -> list[str]:
        """The output's lines."""
        return self.out.splitlines()


def run(*args: str | Path, stdin: str = "") -> Done:
    """Run ``fifthwise`` with arguments."""
    done = subprocess.run(
        [sys.executable, "-c", "from fifthwise.cli import main; main()", *map(str, args)],
        input=stdin.encode(),
        capture_output=True,
        check=False,
    )
    return Done(done.returncode, done.stdout.decode(), done.stderr.decode())
