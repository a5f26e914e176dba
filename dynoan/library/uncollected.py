"""Python's search for garbage, held while much is made that lives on and nothing lies in circles."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock

_lock = Lock()
_holding: list[bool] = []  #: for each that holds it now, whether it was on when the first of them came


@contextmanager
def uncollected() -> Iterator[None]:
    """Hold the search until the last thread that asked for it is done; what was off before stays off."""
    with _lock:
        _holding.append(_holding[0] if _holding else gc.isenabled())
        gc.disable()
    try:
        yield
    finally:
        with _lock:
            if _holding.pop() and not _holding:
                gc.enable()
