"""``fifthwise serve`` as its users run it: a process of its own, asked over the network of this computer."""

import os
import re
import signal
import subprocess
import sys
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx2

__all__ = ["BOOK", "Served", "serve_command", "serving"]

START = "import sys; from fifthwise.cli import main; sys.argv[0] = 'fifthwise'; main()"
BOOK = "b.sqlite"
LOG = "log.txt"
ENDS_S = 30


@dataclass(frozen=True)
class Served:
    """A workbench that runs."""

    address: str
    run: subprocess.Popen
    log_file: Path

    def visitor(self, **options):
        """Somebody on this computer; an answer that leads on is not followed."""
        options = {"timeout": 30, "headers": {"origin": self.address.rstrip("/")}, **options}
        return httpx2.Client(base_url=self.address, trust_env=False, **options)

    def log(self):
        """What it has logged so far."""
        return self.log_file.read_text(encoding="utf-8")


def serve_command(folder, *options):
    """The command over ``BOOK`` in a folder."""
    command = [sys.executable, "-u", "-c", START, "serve", "--no-browser", "--book", folder / BOOK]
    return [*command, *options]


@contextmanager
def serving(folder, *options, bound=()):
    """The command running; ended by Ctrl+C, where the test has not ended it.

    Parameters
    ----------
    folder : Path
        Where its book is, or is made, and its log.
    bound : sequence of str
        A command that runs it with less than one's own rights.
    """
    environment = {**os.environ, "XDG_DATA_HOME": str(folder / "data")}
    with (folder / LOG).open("a", encoding="utf-8") as log:
        run = subprocess.Popen(
            [*bound, *serve_command(folder, *(options or ("--port", "0")))],
            stdout=subprocess.PIPE,
            stderr=log,
            text=True,
            env=environment,
        )
    try:
        line = run.stdout.readline()
        found = re.search(r"http://\S+", line)
        assert found, line + (folder / LOG).read_text(encoding="utf-8")
        yield Served(found[0], run, folder / LOG)
    finally:
        if run.poll() is None:
            run.send_signal(signal.SIGINT)
            assert run.wait(timeout=ENDS_S) == 0
        run.stdout.close()
