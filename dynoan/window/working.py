"""Long work beside the requests: one thing at a time, with progress, and a stop that is heeded between two steps."""

from __future__ import annotations

import itertools
import threading
import traceback
from collections.abc import Callable
from dataclasses import dataclass, field
from queue import SimpleQueue
from typing import Any, Literal

from dynoan.errors import DynoanError

State = Literal["waiting", "running", "done", "failed", "stopped"]
REMEMBERED = 20  #: works that are over and can still be asked about


class Stopped(Exception):
    """Somebody wants the work to stop."""


@dataclass
class Work:
    """One piece of long work."""

    number: int
    key: str  #: what it is for: the same is not begun twice
    label: str  #: in words
    run: Callable[[Work], Any]
    state: State = "waiting"
    step: str = ""
    done: int = 0
    all: int = 0
    error: str = ""
    result: Any = None
    stopping: threading.Event = field(default_factory=threading.Event)
    over: threading.Event = field(default_factory=threading.Event)

    def progress(self, step: str, done: int, how_many: int) -> None:
        """Take note of how far it is; raises `Stopped` where it is to stop."""
        self.step, self.done, self.all = step, done, how_many
        if self.stopping.is_set():
            raise Stopped

    def watch(self, step: str, share: float) -> None:
        """Take note of a share of 1."""
        self.progress(step, round(100 * share), 100)

    def to_dict(self) -> dict[str, Any]:
        """Return what a page shows of it."""
        return {"number": self.number, "label": self.label, "state": self.state, "step": self.step, "done": self.done,
                "all": self.all, "error": self.error}  # fmt: skip


class Works:
    """All work of a window: one thread does it in order."""

    def __init__(self) -> None:
        self._queue: SimpleQueue[Work | None] = SimpleQueue()
        self._numbers = itertools.count(1)
        self._works: dict[int, Work] = {}
        self._lock = threading.Lock()
        self._thread: threading.Thread | None = None

    def begin(self, key: str, label: str, run: Callable[[Work], Any]) -> Work:
        """Return the work under this key that is under way, else begin it."""
        with self._lock:
            for work in self._works.values():
                if work.key == key and work.state in ("waiting", "running") and not work.stopping.is_set():
                    return work
            work = Work(next(self._numbers), key, label, run)
            self._works[work.number] = work
            for old in [w.number for w in self._works.values() if w.over.is_set()][:-REMEMBERED]:
                del self._works[old]
            if self._thread is None:
                self._thread = threading.Thread(target=self._loop, name="dynoan work", daemon=True)
                self._thread.start()
        self._queue.put(work)
        return work

    def under_way(self) -> list[Work]:
        """Return what waits or runs."""
        with self._lock:
            return [w for w in self._works.values() if not w.over.is_set()]

    def get(self, number: int) -> Work | None:
        """Return a work by its number, None where it is forgotten."""
        return self._works.get(number)

    def last(self, key: str) -> Work | None:
        """Return the newest work under a key."""
        with self._lock:
            return next((w for w in reversed(self._works.values()) if w.key == key), None)

    def stop(self, number: int) -> None:
        """Ask a work to stop after the step it is at."""
        work = self.get(number)
        if work is not None:
            work.stopping.set()

    def close(self) -> None:
        """Stop everything; returns once the step at hand is over, or after two seconds."""
        for work in self.under_way():
            work.stopping.set()
        self._queue.put(None)
        if self._thread is not None:
            self._thread.join(2.0)

    def _loop(self) -> None:
        while (work := self._queue.get()) is not None:
            _do(work)


def _do(work: Work) -> None:
    try:
        if work.stopping.is_set():
            raise Stopped
        work.state = "running"
        work.result = work.run(work)
        work.state = "done"
    except Stopped:
        work.state = "stopped"
    except DynoanError as error:
        work.error, work.state = str(error), "failed"
    except Exception as error:
        traceback.print_exc()
        work.error, work.state = f"a fault of the program ({type(error).__name__}: {error})", "failed"
    finally:
        work.over.set()
