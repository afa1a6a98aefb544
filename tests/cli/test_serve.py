"""``fifthwise serve``."""

import os
import re
import socket
import subprocess
import urllib.request

import pytest

from tests.serving import serve_command, serving


def free_port():
    """A port that is free, and so is the next."""
    with socket.create_server(("127.0.0.1", 0)) as first:
        port = first.getsockname()[1]
    return port


def test_the_workbench_is_served_to_this_computer_alone(tmp_path):
    """It answers on loopback under its own name, and to no other."""
    with serving(tmp_path) as served:
        with urllib.request.urlopen(served.address) as answer:
            assert b"fifthwise" in answer.read()
        wrong = urllib.request.Request(served.address, headers={"Host": "workbench.example"})
        with pytest.raises(urllib.error.HTTPError, match="400"):
            urllib.request.urlopen(wrong)


def test_a_port_that_is_taken_is_told(tmp_path):
    """With the mend."""
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = str(other.getsockname()[1])
        command = serve_command(tmp_path, "--port", port)
        run = subprocess.run(command, capture_output=True, text=True, check=False)
    assert run.returncode == 2
    assert f"port {port} is taken" in run.stderr
    assert "--port" in run.stderr


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (["--password-file", "secret.txt"], "--password-file is for sharing: add --share"),
        (["--new-password"], "--new-password is for sharing: add --share"),
        (["--book", ""], "--book: no place is named"),
        (["--book", "/"], "/: this is a folder"),
        (["--share"], "There is no terminal to ask for the leader's password"),
    ],
)
def test_options_that_cannot_be_are_told(tmp_path, options, told):
    """Nothing is left out in silence, and Python says nothing of its own."""
    run = subprocess.run(
        serve_command(tmp_path, "--port", str(free_port()), *options),
        stdin=subprocess.DEVNULL,
        start_new_session=True,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        env={**os.environ, "XDG_DATA_HOME": str(tmp_path / "data")},
    )
    assert run.returncode == 2
    assert told in run.stderr
    assert "Warning" not in run.stderr
    if options == ["--share"]:
        assert "--password-file FILE" in run.stderr


def test_sharing_tells_the_code_and_keeps_the_password_hashed(tmp_path):
    """The password comes from a file; what is kept is neither it nor readable by others."""
    secret = tmp_path / "password.txt"
    secret.write_text("salt on the sill\n")
    options = ("--share", "--password-file", secret, "--port", str(free_port()))
    with serving(tmp_path, *options) as served:
        told = served.run.stdout.readline() + served.run.stdout.readline()
        assert "The band opens" in told
        assert re.search(r"Their code is [A-Z2-9]{6}\.", told)
    kept = tmp_path / "data" / "fifthwise" / "leader.password"
    assert "salt on the sill" not in kept.read_text()
    assert kept.stat().st_mode & 0o077 == 0
