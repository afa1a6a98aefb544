"""``fifthwise serve``."""

import os
import re
import signal
import socket
import subprocess
import sys
import urllib.request
from contextlib import contextmanager

import pytest

START = "import sys; from fifthwise.cli import main; sys.argv[0] = 'fifthwise'; main()"


@contextmanager
def serving(tmp_path, *options):
    """The command running, with its address; ended by Ctrl+C."""
    command = [
        sys.executable,
        "-u",
        "-c",
        START,
        "serve",
        "--no-browser",
        "--book",
        tmp_path / "b.sqlite",
        *options,
    ]
    environment = {**os.environ, "XDG_DATA_HOME": str(tmp_path / "data")}
    run = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=environment
    )
    try:
        line = run.stdout.readline()
        found = re.search(r"http://\S+", line)
        assert found, line + run.stdout.read()
        yield found[0], run
    finally:
        run.send_signal(signal.SIGINT)
        assert run.wait(timeout=30) == 0
        run.stdout.close()


def free_port():
    """A port that is free, and so is the next."""
    with socket.create_server(("127.0.0.1", 0)) as first:
        port = first.getsockname()[1]
    return port


def test_the_workbench_is_served_to_this_computer_alone(tmp_path):
    """It answers on loopback under its own name, and to no other."""
    with serving(tmp_path, "--port", "0") as (address, _):
        with urllib.request.urlopen(address) as answer:
            assert b"fifthwise" in answer.read()
        wrong = urllib.request.Request(address, headers={"Host": "workbench.example"})
        with pytest.raises(urllib.error.HTTPError, match="400"):
            urllib.request.urlopen(wrong)


def test_a_port_that_is_taken_is_told(tmp_path):
    """With the mend."""
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = str(other.getsockname()[1])
        command = [
            sys.executable,
            "-c",
            START,
            "serve",
            "--no-browser",
            "--book",
            tmp_path / "b.sqlite",
            "--port",
            port,
        ]
        run = subprocess.run(command, capture_output=True, text=True, check=False)
    assert run.returncode == 2
    assert f"port {port} is taken" in run.stderr
    assert "--port" in run.stderr


def test_sharing_tells_the_code_and_keeps_the_password_hashed(tmp_path):
    """The password comes from a file; what is kept is neither it nor readable by others."""
    secret = tmp_path / "password.txt"
    secret.write_text("salt on the sill\n")
    options = ("--share", "--password-file", secret, "--port", str(free_port()))
    with serving(tmp_path, *options) as (_, run):
        told = run.stdout.readline() + run.stdout.readline()
        assert "The band opens" in told
        assert re.search(r"Their code is [A-Z2-9]{6}\.", told)
    kept = tmp_path / "data" / "fifthwise" / "leader.password"
    assert "salt on the sill" not in kept.read_text()
    assert kept.stat().st_mode & 0o077 == 0
