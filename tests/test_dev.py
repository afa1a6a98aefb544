import re
import subprocess
import sys
import zipfile

import pytest

import dev

SOURCE = dev.ROOT / "src/fifthwise"


def test_an_old_python_is_refused_with_the_mend(monkeypatch):
    """A Python before 3.11 is named, and so is how to choose another."""
    monkeypatch.setattr(sys, "version_info", (3, 9, 2))
    with pytest.raises(
        dev.SetUpError, match=re.escape("this is 3.9.\nInstall one and name it: make PYTHON=")
    ):
        dev.check_python()


def test_a_python_without_venv_is_told_what_to_install(monkeypatch):
    """Without the right to install anything, the message is the command to type."""
    monkeypatch.setattr(dev, "can_make_venv", lambda: False)
    monkeypatch.setattr(dev.shutil, "which", lambda name: None)
    with pytest.raises(dev.SetUpError, match="apt-get install python3-venv"):
        dev.ensure_venv_module()


def test_exit_codes_are_handed_on():
    """A task that fails makes the whole command fail."""
    assert dev.run(sys.executable, "-c", "raise SystemExit(3)") == 3


def test_the_stamp_follows_the_lock(monkeypatch, tmp_path):
    """A changed lock means another environment."""
    before = dev.stamp("run")
    changed = tmp_path / "changed.lock"
    changed.write_text(dev.LOCKS["run"].read_text(encoding="utf-8") + "# changed\n", encoding="utf-8")
    monkeypatch.setitem(dev.LOCKS, "run", changed)
    assert dev.stamp("run") != before


@pytest.mark.parametrize("layer", dev.LOCKS)
def test_the_lock_holds_only_pinned_versions(layer):
    """No index, no folder and no unpinned package has found its way into a lock."""
    lines = dev.LOCKS[layer].read_text(encoding="utf-8").splitlines()
    packages = [line for line in lines if line and not line.startswith((" ", "#"))]
    assert packages
    assert all(re.match(r"[\w.-]+==[\w.+]+( ; .+)? \\$", line) for line in packages)
    assert not [
        line for line in lines if "://" in line or line.lstrip(" #").startswith(("/", "-e", "--index"))
    ]


def test_the_wheel_carries_every_file_of_the_package(tmp_path):
    """Fonts, templates and tables are installed with the code that reads them."""
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", tmp_path],
        cwd=dev.ROOT,
        check=True,
        capture_output=True,
    )
    (wheel,) = tmp_path.glob("*.whl")
    shipped = set(zipfile.ZipFile(wheel).namelist())
    files = (file for file in SOURCE.rglob("*") if file.is_file() and "__pycache__" not in file.parts)
    assert {str(file.relative_to(SOURCE.parent)) for file in files} <= shipped
