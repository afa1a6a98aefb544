"""Files that nobody else may read."""

import os
import stat
from concurrent.futures import ThreadPoolExecutor

import pytest

from fifthwise.web.guard import ExposedFile
from fifthwise.web.guard.private_files import make_once, read_private, replace_private

posix = pytest.mark.skipif(os.name != "posix", reason="modes say nothing here")


@posix
def test_files_are_private_from_the_start(tmp_path):
    """0600 for the file and 0700 for a folder made for it, whatever the umask."""
    before = os.umask(0)
    try:
        replace_private(tmp_path / "kept" / "a", b"a")
        make_once(tmp_path / "kept" / "b", lambda: b"b")
    finally:
        os.umask(before)
    modes = {path.name: stat.S_IMODE(path.stat().st_mode) for path in (tmp_path / "kept").iterdir()}
    assert modes == {"a": 0o600, "b": 0o600}
    assert stat.S_IMODE((tmp_path / "kept").stat().st_mode) == 0o700


def test_a_file_is_made_once(tmp_path):
    """The second time reads what the first made."""
    assert make_once(tmp_path / "a", lambda: b"first") == b"first"
    assert make_once(tmp_path / "a", lambda: b"second") == b"first"
    assert [path.name for path in tmp_path.iterdir()] == ["a"]


def test_what_another_server_has_just_made_is_kept(tmp_path):
    """Ours is thrown away, whatever it cost."""

    def too_late():
        replace_private(tmp_path / "a", b"theirs")
        return b"ours"

    assert make_once(tmp_path / "a", too_late) == b"theirs"
    assert [path.name for path in tmp_path.iterdir()] == ["a"]


def test_servers_that_start_together_agree(tmp_path):
    """Of many that make it at once, one wins, and all hold its content whole."""
    with ThreadPoolExecutor(16) as pool:
        made = list(pool.map(lambda _: make_once(tmp_path / "a", lambda: os.urandom(4096)), range(64)))
    assert set(made) == {(tmp_path / "a").read_bytes()}
    assert [path.name for path in tmp_path.iterdir()] == ["a"]


@posix
@pytest.mark.parametrize("mode", [0o640, 0o604, 0o620, 0o666])
def test_a_file_that_others_may_read_is_not_used(tmp_path, mode):
    """It may be known to somebody, so it is refused with what to do."""
    replace_private(tmp_path / "a", b"a")
    (tmp_path / "a").chmod(mode)
    with pytest.raises(ExposedFile, match=r"others on this machine may read or change this file\. Delete it"):
        read_private(tmp_path / "a")


def test_no_file_is_none(tmp_path):
    """A file that is not there is no fault."""
    assert read_private(tmp_path / "a") is None
