"""How the step is compiled by numba, where its translation does not serve."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numba


def compiled(function: Callable[..., Any]) -> Any:
    """Return a function compiled and kept; where no place to keep it can be written to, compiled each time.

    What only compiled code calls needs no door for Python, whose compiling takes a quarter of the time.
    """
    inner = function.__name__.startswith("_")
    options: dict[str, Any] = {
        "nogil": True,
        "error_model": "numpy",
        "no_cpython_wrapper": inner,
        "no_cfunc_wrapper": inner,
    }
    try:
        return numba.njit(cache=True, **options)(function)
    except RuntimeError:  # no place for the cache
        return numba.njit(**options)(function)
