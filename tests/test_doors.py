"""Each package's door opens to what it names, and the light rooms bring nobody along."""

import importlib
import subprocess
import sys
from types import ModuleType

import pytest

ROOMS = (
    "jobs",
    "theory",
    "chart",
    "voice",
    "strings",
    "strings.advice",
    "strings.bowing",
    "strings.fingering",
    "strings.lines",
    "page",
    "page.staff",
    "exchange",
    "exchange.abc",
    "exchange.midi",
    "exchange.musicxml",
    "exchange.numbers",
    "exchange.over_words",
    "exchange.roman",
    "files",
    "book",
    "evening",
    "stage",
    "web",
    "web.guard",
    "cli",
)
PURE = (
    "theory",
    "chart",
    "voice",
    "strings",
    "strings.advice",
    "strings.bowing",
    "exchange",
    "exchange.abc",
    "exchange.midi",
    "exchange.musicxml",
    "exchange.numbers",
    "exchange.over_words",
    "exchange.roman",
)
# What a fresh interpreter loads with a package, beyond what it loads by itself.
NEW_MODULES = """
import sys
before = set(sys.modules)
import fifthwise.{room}
print(*sorted(set(sys.modules) - before))
"""


@pytest.mark.parametrize("room", ROOMS)
def test_a_door_names_all_that_it_opens_to(room):
    """``__all__`` is sorted, names nothing twice, and is what stands in the door."""
    door = importlib.import_module(f"fifthwise.{room}")
    named = door.__all__
    found = {
        name
        for name, value in vars(door).items()
        if not name.startswith("_") and not isinstance(value, ModuleType)
    }
    assert named == sorted(named, key=lambda name: (not name.isupper(), not name[0].isupper(), name))
    assert len(set(named)) == len(named)
    assert set(named) == found


@pytest.mark.parametrize("room", PURE)
def test_a_pure_room_brings_nobody_along(room):
    """Importing it loads the standard library and ourselves, and nothing that reaches out."""
    code = NEW_MODULES.format(room=room)
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(run.stdout.split())
    roots = {name.partition(".")[0] for name in loaded}
    assert "fifthwise" in roots
    assert roots - {"fifthwise"} <= sys.stdlib_module_names
    assert not loaded & {"socket", "sqlite3", "random", "asyncio", "urllib.request"}


def test_the_command_does_not_load_the_database_before_it_is_needed():
    """Its library takes longer to load than the command takes to answer."""
    code = NEW_MODULES.format(room="cli.main")
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {name.partition(".")[0] for name in run.stdout.split()} & {"sqlalchemy", "alembic"}
