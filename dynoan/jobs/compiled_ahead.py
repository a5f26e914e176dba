"""The launch's compiled step made ready before it is asked for: by a process of its own, kept for all that come after.

Compiling takes some seconds, once for each version and kind of machine. What a person does before a launch (the demo,
the window, a new car, its ratios, its clicks) begins it beside other work. A launch that comes first of all begins it
too, reads its curves meanwhile, and waits for what is left; where no process can be begun it compiles for itself.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from dynoan.analysis.launch import large

#: how the process gives way to what the person waits for
NICE = 10
#: a mark of another process that is older than this is of one that died, and nobody waits for it longer [s]
LONGEST = 30.0
_LOOK = 0.02  #: how often it is looked whether the code is ready [s]
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


def mark() -> Path:
    """Return the file that stands while a process compiles this source for this user."""
    user = os.getuid() if hasattr(os, "getuid") else 0
    of = f"{user}-{sys.version_info.minor}-{_SOURCE.stat().st_mtime_ns:x}-{os.environ.get('NUMBA_CACHE_DIR', '')}"
    return Path(tempfile.gettempdir()) / f"dynoan-compiling-{hashlib.sha256(of.encode()).hexdigest()[:16]}"


def under_way() -> bool:
    """Return whether some process compiles just now."""
    try:
        return time.time() - mark().stat().st_mtime < LONGEST
    except OSError:
        return False


def begin(*, awaited: bool = False) -> subprocess.Popen[bytes] | None:
    """Return the process that makes the compiled step ready, begun now; None where it is, or is being made.

    Parameters
    ----------
    awaited
        Whether a person waits for it: then at full priority.
    """
    if is_kept() or under_way():
        return None
    code = f"from dynoan.jobs.compiled_ahead import make; make(nice={0 if awaited else NICE})"
    none = subprocess.DEVNULL
    try:
        mark().touch()
        return subprocess.Popen([sys.executable, "-c", code], stdin=none, stdout=none, stderr=none)
    except OSError:
        mark().unlink(missing_ok=True)
        return None  # then the first launch compiles for itself


def wait() -> None:
    """Wait while some process compiles; at once where none does."""
    while under_way():
        time.sleep(_LOOK)


def make(nice: int = NICE) -> None:
    """Compile, at a lower priority; take the mark away whatever comes."""
    try:
        _run_nothing(nice)
    finally:
        mark().unlink(missing_ok=True)


def _run_nothing(nice: int) -> None:
    """Compile by running a step of nothing."""
    import numpy as np

    from dynoan.analysis.launch.large import layout as at
    from dynoan.analysis.launch.large.compiled import run_rows

    with contextlib.suppress(AttributeError, OSError):
        os.nice(nice)
    hinges = np.full((2, 2, 2, 1, 1), at.NO_HINGE)
    rows, none = np.zeros((1, 4), dtype=np.int64), np.zeros((1, 1))
    kernel: Callable[..., None] = run_rows
    kernel(
        np.ones(at.PARAMETERS), np.zeros((2, 2, at.POWERS)), hinges, rows, np.zeros((1, at.GROUNDS)), none, 1.0, none,
        none, np.zeros((2, 1)), np.zeros((1, at.STATES)), 1e-3, np.zeros((1, at.FIGURES)), np.zeros((1, at.STATES, 1)),
        np.zeros((1, at.KEPT, 1)),
    )  # fmt: skip
