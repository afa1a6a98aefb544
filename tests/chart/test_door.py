import subprocess
import sys
from types import ModuleType

import fifthwise.chart

# What a fresh interpreter loads with fifthwise.chart, beyond what it loads by itself.
NEW_MODULES = """
import sys
before = set(sys.modules)
import fifthwise.chart
print(*sorted({name.partition(".")[0] for name in set(sys.modules) - before}))
"""


def test_the_door_names_all_that_it_opens_to():
    """``__all__`` is sorted, names nothing twice, and is what stands in the door."""
    named = fifthwise.chart.__all__
    found = {
        name
        for name, value in vars(fifthwise.chart).items()
        if not name.startswith("_") and not isinstance(value, ModuleType)
    }
    assert named == sorted(named, key=lambda name: (not name.isupper(), not name[0].isupper(), name))
    assert len(set(named)) == len(named)
    assert set(named) == found


def test_the_chart_brings_nobody_along():
    """Importing it loads the standard library and ourselves, and nothing else."""
    run = subprocess.run([sys.executable, "-c", NEW_MODULES], capture_output=True, text=True, check=True)
    loaded = set(run.stdout.split())
    assert "fifthwise" in loaded
    assert loaded - {"fifthwise"} <= sys.stdlib_module_names
    assert not loaded & {"socket", "sqlite3", "random", "asyncio", "urllib"}
