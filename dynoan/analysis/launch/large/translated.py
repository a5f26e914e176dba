"""The compiled step made from its kept translation: no launch waits for its compiling, the first as little as any.

`compiled.ll` holds `compiled.run_rows` as `machine_code` takes it, which makes code of this machine of it in a tenth of
a second. Where it is of another source, or cannot be used here, numba compiles the source, some four seconds long, and
keeps what it made beside it or in the user's cache.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np

from dynoan.analysis.launch.large.layout import WORK_ROOM
from dynoan.analysis.launch.large.sealed import PARAMETERS, seal
from dynoan.machine_code import KeptCode, made_here

#: where the translation lies
KEPT = Path(__file__).with_name("compiled.ll")
#: functions of the C library that the step calls
_CALLED = ("sin", "cos", "atan", "tanh", "exp", "log", "memset")

#: fills figures, and where asked states and what is kept, of rows; parameters as of `compiled.run_rows`, the room aside
Step = Callable[..., None]


@lru_cache(maxsize=1)
def step() -> Step:
    """Return the step ready to run."""
    return from_translation() or from_source()


def from_source() -> Step:
    """Return the step compiled by numba, or what it kept of an earlier time."""
    from dynoan.analysis.launch.large.compiled import run_rows

    return _with_room(run_rows)


def from_translation() -> Step | None:
    """Return the step made from its translation; None where that is of another source or of no use here."""
    kernel = made_here(kept())
    return None if kernel is None else _with_room(kernel)


def kept() -> KeptCode:
    """Return the kept translation."""
    return KeptCode(KEPT, seal(), "run_rows", PARAMETERS, _CALLED)


def _with_room(kernel: Callable[..., None]) -> Step:
    def run(*given: Any) -> None:
        kernel(*given, np.zeros(WORK_ROOM))

    return run
