"""Long work shared out: worker processes that end when nothing was to be done for a while, and parts side by side."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from contextvars import copy_context

from dynoan.batch import Workers
from dynoan.window.working import Work
from dynoan.workbench.fitting_jobs import Progress

IDLE = 30.0  #: after which the processes end; each holds some 80 MB [s]
SIDE_BY_SIDE = 4  #: parts of a work under way at once: enough that the processes never wait


class RestingWorkers(Workers):
    """Worker processes that are begun for work, stay for what may follow, and end after a while without any."""

    def __init__(self, *modules: str) -> None:
        super().__init__(*modules)
        self._users = 0
        self._timer: threading.Timer | None = None
        self._counting = threading.Lock()

    def warm(self) -> None:
        """Begin the processes before there is work for them."""
        self._count(1)
        super().warm()
        self._count(-1)

    @contextmanager
    def at_hand(self) -> Iterator[None]:
        """Share out to these processes whatever is shared out inside."""
        self._count(1)
        try:
            with super().at_hand():
                yield
        finally:
            self._count(-1)

    def _count(self, step: int) -> None:
        with self._counting:
            self._users += step
            if self._timer is not None:
                self._timer.cancel()
                self._timer = None
            if not self._users:
                self._timer = threading.Timer(IDLE, self._drop_unused)
                self._timer.daemon = True
                self._timer.start()

    def _drop_unused(self) -> None:
        with self._counting:
            pool = None if self._users else self.taken()
        if pool is not None:  # who comes just now waits for no process to end: it gets new ones
            pool.shutdown(cancel_futures=True)


def beside(work: Work, parts: Mapping[str, Callable[[Progress], None]], *, at_once: int = SIDE_BY_SIDE) -> None:
    """Do parts of a work side by side, with the progress of all together; what one raises is raised once all ended."""
    known: dict[tuple[str, str], tuple[int, int]] = {}

    def progress(name: str) -> Progress:
        def tell(step: str, done: int, many: int) -> None:
            known[name, step] = done, many
            same = [both for (_, other), both in list(known.items()) if other == step]
            work.progress(step, sum(d for d, _ in same), sum(m for _, m in same))

        return tell

    with ThreadPoolExecutor(at_once, thread_name_prefix="dynoan part") as threads:
        begun = [threads.submit(copy_context().run, part, progress(name)) for name, part in parts.items()]
        for one in begun:
            one.result()
