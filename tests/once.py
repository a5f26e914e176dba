"""What takes long to make and is only read: made once a run, by whichever worker comes first; each gets a copy."""

from __future__ import annotations

import fcntl
import os
import pickle
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any


def copied(base: Path, name: str, make: Callable[[Path], Any], to: Path) -> Any:
    """Copy what `make(folder)` leaves to a folder, and return what it returned; `base` is the worker's own folder."""
    made = _made(base, name, make)
    shutil.copytree(made, to)
    return pickle.loads(made.with_name(f"{name}.pickle").read_bytes())


def lent_fits(base: Path, library: Path) -> None:
    """Give a library of the demo's runs the curves and maps that the demo fitted, as one that was asked before has."""
    from tests.golden.grounds import made_demo

    shutil.copytree(_made(base, "demo", made_demo) / "cache", library / "cache", dirs_exist_ok=True)


def _made(base: Path, name: str, make: Callable[[Path], Any]) -> Path:
    root = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    (root / "once").mkdir(exist_ok=True, parents=True)
    made, kept = root / "once" / name, root / "once" / f"{name}.pickle"
    with (root / "once" / f"{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not kept.exists():
            shutil.rmtree(made, ignore_errors=True)
            kept.write_bytes(pickle.dumps(make(made)))
    return made
