"""A job shared out over its items: results in their order, only a few items under way at a time."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sized
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from importlib import import_module
from typing import Any, TypeVar

from dynoan.batch.workers import KEPT, cores, pool_of
from dynoan.errors import CallError, LibraryError

A = TypeVar("A")
B = TypeVar("B")
#: items in the making at once, a worker; bounds memory however many items there are
AHEAD = 4
CONNECT = 10  #: how long a cluster may take to answer [s]


def iterate(
    function: Callable[[A], B], items: Iterable[A], workers: int | None = None, *, cluster: str | None = None
) -> Iterator[B]:
    """Yield ``function(item)`` for each item, in that order, made by several workers, only a few under way at a time.

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

    Raises
    ------
    CallError
        If the cluster cannot be reached, or its extra is not installed.
    """
    if cluster is not None:
        return _on_cluster(function, items, cluster)
    count = workers or cores()
    if isinstance(items, Sized):
        count = min(len(items), count)
    return map(function, items) if count <= 1 else _on_cores(function, items, count)


def _on_cores(function: Callable[[A], B], items: Iterable[A], workers: int) -> Iterator[B]:
    kept = KEPT.get()
    if kept is None:
        pool = pool_of(workers)
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
