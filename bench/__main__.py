"""Every bench in turn: ``python -m bench`` prints their figures; exits with 1 where a target is missed."""

import importlib
import pkgutil
import sys

import bench


def main() -> int:
    """Run each module of this folder that has a ``main``; each returns whether its targets are met."""
    met = True
    for module in sorted(found.name for found in pkgutil.iter_modules(bench.__path__)):
        if module.startswith("_"):
            continue
        run = getattr(importlib.import_module(f"bench.{module}"), "main", None)
        if run:
            print(f"\n== {module}", flush=True)
            met = run() is not False and met
    return 0 if met else 1


sys.exit(main())
