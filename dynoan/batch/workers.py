"""Worker processes: begun without the caller's script, kept over many calls, ended with the process that began them."""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from importlib import import_module
from multiprocessing.context import SpawnContext, SpawnProcess
from threading import Lock, Thread
from types import ModuleType
from typing import Any

from dynoan.batch.memory import keep_ready


def cores() -> int:
    """Return how many processes work beside one another where nobody says how many."""
    return os.cpu_count() or 1


class _Worker(SpawnProcess):
    """A process that does not run the script that asked: what it is to do stands in modules of the project.

    Else a script of a few lines, without a guard around them, would run again in each worker, and fail there.
    """

    @staticmethod
    def _Popen(process_obj: Any) -> Any:  # noqa: N802
        script = sys.modules["__main__"]
        sys.modules["__main__"] = ModuleType("__main__")
        try:
            return SpawnProcess._Popen(process_obj)
        finally:
            sys.modules["__main__"] = script


class _Spawning(SpawnContext):
    Process = _Worker


def pool_of(workers: int) -> ProcessPoolExecutor:
    """Return so many new processes, which begin once there is work for them."""
    # Not "fork": a forked child of a process with threads (pyarrow, numba, HDF5) can hang.
    return ProcessPoolExecutor(workers, mp_context=_Spawning(), initializer=_as_worker)


def _as_worker() -> None:
    """Leave Ctrl-C to the process that began this one, and end with it: one that waits would not see it die."""
    keep_ready()
    with suppress(ValueError):
        signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = multiprocessing.parent_process()
    if parent is not None:
        Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()


def _end_with(sentinel: Any) -> None:
    from multiprocessing.connection import wait

    wait([sentinel])
    os._exit(1)


class Workers:
    """Worker processes that outlive one call, begun when the first needs them; several threads may share them."""

    def __init__(self, *modules: str) -> None:
        """Name what each worker imports at once when it is begun ahead of time."""
        self.workers = cores()
        self._modules = modules
        self._pool: ProcessPoolExecutor | None = None
        self._lock = Lock()

    def pool(self) -> ProcessPoolExecutor:
        """Return the processes, begun now where none are there."""
        with self._lock:
            if self._pool is None:
                self._pool = pool_of(self.workers)
            return self._pool

    def warm(self) -> None:
        """Begin the processes before there is work for them: each start takes a second of a core."""
        with self._lock:
            begun = self._pool is not None
        if not begun:
            for _ in range(self.workers):
                self.pool().submit(_import, self._modules)

    def drop(self) -> None:
        """End the processes once what is under way is finished; what waits is not begun."""
        pool = self.taken()
        if pool is not None:
            pool.shutdown(cancel_futures=True)

    def taken(self) -> ProcessPoolExecutor | None:
        """Return the processes, which are from now on the caller's to end; whoever wants some gets new ones."""
        with self._lock:
            pool, self._pool = self._pool, None
        return pool

    @contextmanager
    def at_hand(self) -> Iterator[None]:
        """Share out to these processes whatever is shared out inside."""
        token = KEPT.set(self)
        try:
            yield
        finally:
            KEPT.reset(token)


KEPT: ContextVar[Workers | None] = ContextVar("kept workers", default=None)


@contextmanager
def kept_workers(*modules: str) -> Iterator[None]:
    """Keep one set of worker processes for all that is shared out inside: each start takes a second of every core.

    Parameters
    ----------
    modules
        What the workers import at once, beside what this process does next; without any they start when first needed.
    """
    kept = Workers(*modules)
    if modules:
        kept.warm()
    try:
        with kept.at_hand():
            yield
    finally:
        kept.drop()


def are_kept() -> bool:
    """Tell whether worker processes stand ready, or will for what comes later too: then few items are worth them."""
    return KEPT.get() is not None


def _import(modules: Sequence[str]) -> None:
    for name in modules:
        import_module(name)
