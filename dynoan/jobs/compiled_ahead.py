"""The launch's compiled step made ready before it is asked for: by a process of its own, kept for all that come after.

Compiling takes some seconds, once for each version and kind of machine. What a person does first (the demo, the window)
begins it beside other work; a launch that comes sooner compiles for itself.
"""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from dynoan.analysis.launch import large

#: how the process gives way to what the person waits for
NICE = 10
_SOURCE = Path(large.__file__).with_name("compiled.py")


def is_kept() -> bool:
    """Return whether compiled code of this version lies beside its source, or where `NUMBA_CACHE_DIR` says.

    Beside a source that cannot be written to nothing is kept: then it lies in the user's cache, and counts as kept.
    """
    own = os.environ.get("NUMBA_CACHE_DIR")
    if own is None and not os.access(_SOURCE.parent, os.W_OK):
        return True
    places = [Path(own)] if own else [_SOURCE.parent / "__pycache__"]
    lines = _SOURCE.read_text(encoding="utf-8").splitlines()
    line = next((n for n, text in enumerate(lines, 1) if text.startswith("def run_rows(")), 0)
    name = f"compiled.run_rows-{line}.py{sys.version_info.major}{sys.version_info.minor}.nbi"
    return any(True for place in places for _ in place.rglob(name))


def begin() -> subprocess.Popen[bytes] | None:
    """Return the process that makes the compiled step ready, begun now; None where it is."""
    if is_kept():
        return None
    code = "from dynoan.jobs.compiled_ahead import make; make()"
    none = subprocess.DEVNULL
    try:
        return subprocess.Popen([sys.executable, "-c", code], stdin=none, stdout=none, stderr=none)
    except OSError:
        return None  # then the first launch compiles for itself


def make() -> None:
    """Compile by running a step of nothing, at a lower priority."""
    import numpy as np

    from dynoan.analysis.launch.large import layout as at
    from dynoan.analysis.launch.large.compiled import run_rows

    with contextlib.suppress(AttributeError, OSError):
        os.nice(NICE)
    hinges = np.full((2, 2, 2, 1, 1), at.NO_HINGE)
    rows, none = np.zeros((1, 4), dtype=np.int64), np.zeros((1, 1))
    kernel: Callable[..., None] = run_rows
    kernel(
        np.ones(at.PARAMETERS), np.zeros((2, 2, at.POWERS)), hinges, rows, np.zeros((1, at.GROUNDS)), none, 1.0, none,
        none, np.zeros((2, 1)), np.zeros((1, at.STATES)), 1e-3, np.zeros((1, at.FIGURES)), np.zeros((1, at.STATES, 1)),
        np.zeros((1, at.KEPT, 1)),
    )  # fmt: skip
