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
    with pytest.raises(dev.SetUpError, match=r"apt-get install .*python3-venv"):
        dev.ensure_venv_module()


@pytest.fixture
def installed(monkeypatch):
    """What is asked of the system's package tool on a machine that is ours and has no browser."""
    asked = []
    monkeypatch.setattr(dev, "may_install", lambda: True)
    monkeypatch.setattr(dev.shutil, "which", lambda name: None)
    monkeypatch.delenv(dev.BROWSER_NAMED, raising=False)
    monkeypatch.setattr(dev, "must_run", lambda *command, mend, env: asked.append(command))
    return asked


def test_a_missing_browser_is_installed_where_that_is_ours_to_do(installed, capsys):
    """The package lists are fetched first, nothing beyond the browser comes along, and it is said."""
    dev.ensure_browser()
    assert [command[:2] for command in installed] == [("apt-get", "update"), ("apt-get", "install")]
    assert installed[1][-2:] == ("--no-install-recommends", "chromium")
    assert "Installing chromium" in capsys.readouterr().out


def test_without_the_right_to_install_the_mend_is_told(installed, monkeypatch, capsys):
    """The other tests go on, and the message is the command to type."""
    monkeypatch.setattr(dev, "may_install", lambda: False)
    dev.ensure_browser()
    assert not installed
    assert "apt-get install --no-install-recommends chromium" in capsys.readouterr().out


def test_a_browser_that_is_named_comes_first(installed, monkeypatch):
    """Whatever else is there; and one that does not exist is told, never replaced."""
    monkeypatch.setenv(dev.BROWSER_NAMED, "/opt/my-browser")
    dev.ensure_browser()
    assert not installed
    with pytest.raises(dev.SetUpError, match="names /opt/my-browser, which is no program"):
        dev.find_browser()
    monkeypatch.setattr(dev.shutil, "which", lambda name: name)
    assert dev.find_browser() == "/opt/my-browser"
    monkeypatch.delenv(dev.BROWSER_NAMED)
    assert dev.find_browser() == "chromium"


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
