"""The same job for many items: in this process, on all cores, or on a Dask cluster, with the same results."""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence, Sized
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from functools import partial
from importlib import import_module
from multiprocessing.context import SpawnContext, SpawnProcess
from threading import Lock, Thread
from types import ModuleType
from typing import Any, TypeVar

from dynoan.errors import CallError, LibraryError

A = TypeVar("A")
B = TypeVar("B")
#: items in the making at once, a worker; bounds memory however many items there are
AHEAD = 4
CONNECT = 10  #: how long a cluster may take to answer [s]


def cores() -> int:
    """Return how many processes work beside one another where nobody says how many."""
    return os.cpu_count() or 1


def map_all(
    function: Callable[[A], B], items: Sequence[A], workers: int | None = None, *, cluster: str | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> list[B]:  # fmt: skip
    """Return ``[function(item) for item in items]``, in that order, made by several workers.

    Parameters
    ----------
    function
        A function of a module, which workers can import; what it raises is raised here.
    items
        Its arguments; sent to the workers, so small ones are best.
    workers
        Processes to use; all cores by default. With 1, or one item, all is done in this process.
    cluster
        Address of a Dask scheduler, such as "tcp://10.0.0.5:8786", whose workers do it instead.
    progress
        Called with the number done and the number of all, after each item.

    Raises
    ------
    CallError
        If the cluster cannot be reached, or its extra is not installed.
    """
    results = []
    for result in iterate(function, items, workers, cluster=cluster):
        results.append(result)
        if progress is not None:
            progress(len(results), len(items))
    return results


def iterate(
    function: Callable[[A], B], items: Iterable[A], workers: int | None = None, *, cluster: str | None = None
) -> Iterator[B]:
    """Yield the results of `map_all` one by one, with only a few items under way at a time."""
    if cluster is not None:
        return _on_cluster(function, items, cluster)
    count = workers or cores()
    if isinstance(items, Sized):
        count = min(len(items), count)
    return map(function, items) if count <= 1 else _on_cores(function, items, count)


def _on_cores(function: Callable[[A], B], items: Iterable[A], workers: int) -> Iterator[B]:
    kept = _KEPT.get()
    if kept is None:
        pool = _pool(workers)
        try:
            yield from _by_pool(pool, function, items, workers)
        finally:
            pool.shutdown(cancel_futures=True)
        return
    try:
        yield from _by_pool(kept.pool(), partial(_from_folder, os.getcwd(), function), items, kept.workers)
    except LibraryError:
        kept.drop()  # where a worker was killed, the pool takes nothing more
        raise


def _by_pool(
    pool: ProcessPoolExecutor, function: Callable[[A], B], items: Iterable[A], workers: int
) -> Iterator[B]:  # fmt: skip
    try:
        yield from _in_order(lambda item: pool.submit(function, item), items, workers * AHEAD)
    except BrokenProcessPool:
        raise LibraryError(
            "a worker process was killed, perhaps for want of memory", hint="try fewer at once"
        ) from None


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


def _pool(workers: int) -> ProcessPoolExecutor:
    # Not "fork": a forked child of a process with threads (pyarrow, numba, HDF5) can hang.
    return ProcessPoolExecutor(workers, mp_context=_Spawning(), initializer=_as_worker)


def _as_worker() -> None:
    """Leave Ctrl-C to the process that began this one, and end with it: one that waits would not see it die."""
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
                self._pool = _pool(self.workers)
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
        token = _KEPT.set(self)
        try:
            yield
        finally:
            _KEPT.reset(token)


_KEPT: ContextVar[Workers | None] = ContextVar("kept workers", default=None)


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
    return _KEPT.get() is not None


def _import(modules: Sequence[str]) -> None:
    for name in modules:
        import_module(name)


def _from_folder(folder: str, function: Callable[[A], B], item: A) -> B:
    """Return what a function makes of an item, where names of files are those of the caller's folder."""
    os.chdir(folder)
    return function(item)


def _on_cluster(function: Callable[[A], B], items: Iterable[A], address: str) -> Iterator[B]:
    try:
        client_of: Any = import_module("distributed").Client
    except ImportError:
        raise CallError("--cluster needs the extra 'cluster': pip install 'dynoan[cluster]'") from None
    try:
        client = client_of(address, timeout=CONNECT)
    except (OSError, ValueError, TimeoutError) as error:
        reason = str(error).splitlines()[0][:120] if str(error) else type(error).__name__
        raise CallError(f"--cluster {address}: no scheduler answers there ({reason})") from None
    with client:
        threads = max(1, sum(client.nthreads().values()))
        # Not "pure": a function may read files, so an earlier result of the same arguments may be stale.
        yield from _in_order(lambda item: client.submit(function, item, pure=False), items, threads * AHEAD)


def _in_order(submit: Callable[[A], Any], items: Iterable[A], ahead: int) -> Iterator[B]:
    waiting: deque[Future[B]] = deque()
    try:
        for item in items:
            waiting.append(submit(item))
            if len(waiting) >= ahead:
                yield waiting.popleft().result()
        while waiting:
            yield waiting.popleft().result()
    finally:
        for future in waiting:
            future.cancel()
