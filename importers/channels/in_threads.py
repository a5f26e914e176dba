"""Looks at the columns of a long record side by side: numpy leaves the interpreter free while it goes through one."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

T = TypeVar("T")
U = TypeVar("U")

_LONG = 200_000  #: of a shorter record a look takes no longer than handing it to a thread [samples]
_WORKERS = 2


def each_in_threads(look: Callable[[T], U], items: Iterable[T], samples: int) -> list[U]:
    """Return what a look at each item gives, in order; `samples` is how many each holds."""
    if samples < _LONG:
        return [look(item) for item in items]
    from concurrent.futures import ThreadPoolExecutor  # loading it would take a short file longer than reading it

    with ThreadPoolExecutor(_WORKERS) as pool:
        return list(pool.map(look, items))
