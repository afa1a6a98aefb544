"""Set the project up and run its tasks, with nothing but Python: ``python3 dev.py TASK``.

The environment is the folder ``.venv``. It is built from the lock files alone, every package checked
against its hash, and stamped with what it was built from: a task whose stamp still holds starts at once.
There are two layers: `run` holds what the program needs, `dev` adds what the tests and checks need.
"""

from __future__ import annotations

import argparse
import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
OUT = ROOT / "out"
OLDEST_PYTHON = (3, 11)
LOCKS = {"run": ROOT / "requirements.lock", "dev": ROOT / "requirements-dev.lock"}
LOCK_TOOL = "uv==0.13.9"  # pip's own lock makers write the machine's index options into the lock
LOCK_GROUPS = {"run": ["build"], "dev": ["build", "dev"]}
DEMO_SET = "demo/harbour-lamp.set.yaml"
BROWSERS = ("chromium", "chromium-browser")
BROWSER_NAMED = "FIFTHWISE_TEST_BROWSER"
NO_BROWSER = "Some tests need Chromium, which is not here."
LEFTOVERS = (
    ".venv",
    "out",
    "dist",
    ".pytest_cache",
    ".mypy_cache",
    ".ruff_cache",
    ".import_linter_cache",
    ".hypothesis",
)


class SetUpError(Exception):
    """What is missing on this machine, said with its mend."""


def program(name: str) -> str:
    """Where the environment keeps a program."""
    folder = VENV / ("Scripts" if os.name == "nt" else "bin")
    return str(folder / name)


def run(*command: str | Path, env: dict[str, str] | None = None) -> int:
    """Run a command in the project's folder and return its exit code."""
    sys.stdout.flush()
    return subprocess.run([str(part) for part in command], cwd=ROOT, env=env, check=False).returncode


def must_run(*command: str | Path, mend: str, env: dict[str, str] | None = None) -> None:
    """Run a command without which there is no going on."""
    if run(*command, env=env):
        spoken = " ".join(str(part) for part in command)
        raise SetUpError(f"This failed: {spoken}\n{mend}")


# The environment


def check_python() -> None:
    """Refuse a Python that the package cannot run on."""
    if sys.version_info[:2] < OLDEST_PYTHON:
        oldest, here = (".".join(map(str, v)) for v in (OLDEST_PYTHON, sys.version_info[:2]))
        raise SetUpError(
            f"fifthwise needs Python {oldest} or newer; this is {here}.\n"
            f"Install one and name it: make PYTHON=python{oldest} demo"
        )


def can_make_venv() -> bool:
    """Tell whether this Python brings what a virtual environment is made of."""
    # Debian's python3 has venv without ensurepip, and fails only half-way through making one.
    probe = subprocess.run([sys.executable, "-c", "import ensurepip, venv"], capture_output=True, check=False)
    return probe.returncode == 0


def ensure_venv_module() -> None:
    """Bring Debian's missing half of ``venv``."""
    if can_make_venv():
        return
    package = "python3-venv"
    lack = "This Python cannot make a virtual environment."
    if not may_install():
        raise SetUpError(f"{lack}\n{by_hand(package)}")
    install(package, lack)
    if not can_make_venv():
        raise SetUpError(
            f"{sys.executable} still cannot make a virtual environment, though {package} is installed.\n"
            "Name Debian's own Python: make PYTHON=/usr/bin/python3 demo"
        )


def may_install() -> bool:
    """Tell whether it is ours to install what the system lacks."""
    is_root = hasattr(os, "geteuid") and os.geteuid() == 0
    return is_root and shutil.which("apt-get") is not None


def by_hand(package: str) -> str:
    """How one of Debian's packages is installed."""
    return (
        "On Debian and its kin: sudo apt-get update && "
        f"sudo apt-get install --no-install-recommends {package}"
    )


def install(package: str, lack: str) -> None:
    """Install one of Debian's packages, saying why."""
    mend = f"Install {package} by hand, then run this again."
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    print(f"{lack} Installing {package}", flush=True)
    must_run("apt-get", "update", "-qq", mend=mend, env=quiet)
    must_run("apt-get", "install", "-y", "-qq", "--no-install-recommends", package, mend=mend, env=quiet)


# The browser that the tests look through


def find_browser() -> str:
    """Where it is: what the environment names, or else the system's Chromium."""
    named = os.environ.get(BROWSER_NAMED)
    found = next(filter(None, map(shutil.which, [named] if named else BROWSERS)), None)
    if found:
        return found
    if named:
        raise SetUpError(f"{BROWSER_NAMED} names {named}, which is no program here.")
    raise SetUpError(f"{NO_BROWSER}\n{by_hand('chromium')}\nOr name another one in {BROWSER_NAMED}.")


def ensure_browser() -> None:
    """Bring the browser where that is ours to do; otherwise say how, for the other tests run without it."""
    try:
        find_browser()
    except SetUpError as fault:
        if may_install() and not os.environ.get(BROWSER_NAMED):
            install("chromium", NO_BROWSER)
        else:
            print(f"{fault}\n", flush=True)


# The environment's layers


def stamp_file(layer: str) -> Path:
    """Where the environment notes what a layer was built from."""
    return VENV / f"built-from-{layer}"


def stamp(layer: str) -> str:
    """What a layer is built from: its lock, the package's own entry, this Python and this place."""
    import tomllib  # not at the top: an older Python must come as far as check_python

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    digest = hashlib.sha256(LOCKS[layer].read_bytes())
    digest.update(f"{project} {sys.version} {sys.base_prefix} {ROOT}".encode())
    return digest.hexdigest()


def is_built(layer: str) -> bool:
    """Tell whether the environment is what the layer's lock says now."""
    file = stamp_file(layer)
    return file.is_file() and file.read_text() == stamp(layer)


def pip_install(*options: str | Path) -> None:
    """Install into the environment from wheels only, untouched by this machine's constraints."""
    # Where packages come from is the machine's business; which ones, the lock's.
    env = {**os.environ, "PIP_CONSTRAINT": os.devnull, "PIP_DISABLE_PIP_VERSION_CHECK": "1"}
    must_run(
        *(program("python"), "-m", "pip", "install", "-qq", *options),
        mend="Is the package index within reach? Then run the same command again.",
        env=env,
    )


def make_venv() -> None:
    """Start the environment anew."""
    ensure_venv_module()
    shutil.rmtree(VENV, ignore_errors=True)
    must_run(sys.executable, "-m", "venv", VENV, mend=f"Remove {VENV} and run this again.")


def build(layer: str) -> None:
    """Bring the environment to what the layer's lock says."""
    if is_built(layer) or (layer == "run" and is_built("dev")):
        return
    # The development lock only adds to the other one, so it can go on top of it.
    if not (layer == "dev" and is_built("run")):
        make_venv()
    print(f"Installing the packages of {LOCKS[layer].name} into .venv", flush=True)
    pip_install("--require-hashes", "--only-binary", ":all:", "-r", LOCKS[layer])
    pip_install("--no-deps", "--no-build-isolation", "--no-index", "-e", ROOT)
    stamp_file(layer).write_text(stamp(layer))


# The tasks


def demo() -> int:
    """Make the demo evening's pages."""
    build("run")
    code = run(program("fifthwise"), "set", DEMO_SET, "--out", OUT)
    if code == 0:
        print(f"\nThe evening's pages are in {OUT}")
    return code


def test() -> int:
    """Run the tests, on every core."""
    build("dev")
    ensure_browser()
    return run(program("python"), "-m", "pytest", "-n", "auto")


def check() -> int:
    """Run every check, and say at the end which ones failed."""
    build("dev")
    checks = {
        "format": (program("ruff"), "format", "--check", "."),
        "lint": (program("ruff"), "check", "."),
        "types": (program("mypy"),),
        "layers": (program("lint-imports"),),
    }
    failed = []
    for name, command in checks.items():
        print(f"== {name}", flush=True)
        if run(*command):
            failed.append(name)
    print(f"Failed: {', '.join(failed)}" if failed else "All checks passed")
    return 1 if failed else 0


def bench() -> int:
    """Time what has to be quick."""
    build("dev")
    return run(program("python"), "-m", "bench")


def set_up() -> int:
    """Build the whole environment and do nothing else."""
    build("dev")
    return 0


def lock() -> int:
    """Write the lock files anew, with the newest versions that ``pyproject.toml`` allows."""
    ensure_venv_module()
    with tempfile.TemporaryDirectory() as scratch:
        python = Path(scratch, "Scripts" if os.name == "nt" else "bin", "python")
        must_run(sys.executable, "-m", "venv", scratch, mend="See the message above.")
        must_run(python, "-m", "pip", "install", "-qq", LOCK_TOOL, mend="Is the package index within reach?")
        for layer in LOCKS:
            must_run(python, "-m", "uv", *lock_options(layer), mend="See the message above.")
            head_lock(LOCKS[layer])
    return 0


def lock_options(layer: str) -> list[str]:
    """How the lock tool is asked for one layer."""
    options = ["--universal", "--generate-hashes", "--no-build", "--no-config", "--no-header", "--quiet"]
    groups = [option for group in LOCK_GROUPS[layer] for option in ("--group", group)]
    # The development lock keeps to the versions of the other, which is written first.
    below = ["--constraint", LOCKS["run"].name] if layer == "dev" else []
    fresh = ["--upgrade", "--output-file", LOCKS[layer].name]
    return ["pip", "compile", "pyproject.toml", *options, *groups, *below, *fresh]


def head_lock(file: Path) -> None:
    """Say at a lock's top where it comes from."""
    file.write_text(f"# Made by `make lock` from pyproject.toml; not to be edited.\n{file.read_text()}")


def clean() -> int:
    """Remove all that the tasks have made."""
    for name in LEFTOVERS:
        shutil.rmtree(ROOT / name, ignore_errors=True)
    for cache in ROOT.rglob("__pycache__"):
        shutil.rmtree(cache, ignore_errors=True)
    return 0


TASKS: dict[str, Callable[[], int]] = {
    "demo": demo,
    "test": test,
    "check": check,
    "bench": bench,
    "venv": set_up,
    "lock": lock,
    "clean": clean,
}


def main() -> int:
    """Run the task asked for, and hand its exit code on."""
    parser = argparse.ArgumentParser(prog="dev.py", description=(__doc__ or "").splitlines()[0])
    parser.add_argument("task", choices=TASKS, help="; ".join(f"{n}: {t.__doc__}" for n, t in TASKS.items()))
    task = TASKS[parser.parse_args().task]
    try:
        check_python()
        return task()
    except SetUpError as fault:
        print(f"\n{fault}", file=sys.stderr)
        return 1


if __name__ == "__main__":
    sys.exit(main())
