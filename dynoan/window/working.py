"""Long work beside the requests: one thing at a time in each lane, with progress, and a stop between two steps."""

from __future__ import annotations

import itertools
import threading
import traceback
from collections.abc import Callable
from dataclasses import dataclass, field
from queue import SimpleQueue
from typing import Any, Literal

from dynoan.batch.memory import give_back
from dynoan.errors import DynoanError

State = Literal["waiting", "running", "done", "failed", "stopped"]
REMEMBERED = 20  #: works that are over and can still be asked about


class Steps:
    """Counts the steps of all work, and wakes who waits for the next."""

    def __init__(self) -> None:
        self.count = 0
        self._changed = threading.Condition()

    def made(self) -> None:
        """Count one more."""
        with self._changed:
            self.count += 1
            self._changed.notify_all()

    def wait(self, after: int, seconds: float) -> None:
        """Return once the count is another than it was (`after`), at the latest after so many seconds."""
        with self._changed:
            self._changed.wait_for(lambda: self.count != after, seconds)


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
    steps: Steps = field(default_factory=Steps)  #: told of each, and of its end

    @property
    def about(self) -> str:
        """What kind of work it is: the first word of its key."""
        return self.key.partition(" ")[0]

    def progress(self, step: str, done: int, how_many: int) -> None:
        """Take note of how far it is; raises `Stopped` where it is to stop."""
        self.step, self.done, self.all = step, done, how_many
        self.steps.made()
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
    """All work of a window: each lane has a thread that does it in order, so that quick work need not wait for slow."""

    def __init__(self) -> None:
        self._queues: dict[str, SimpleQueue[Work | None]] = {}
        self._numbers = itertools.count(1)
        self._works: dict[int, Work] = {}
        self._lock = threading.Lock()
        self.steps = Steps()
        self._threads: list[threading.Thread] = []

    def begin(self, key: str, label: str, run: Callable[[Work], Any], *, lane: str = "") -> Work:
        """Return the work under this key that is under way, else begin it."""
        with self._lock:
            for work in self._works.values():
                if work.key == key and work.state in ("waiting", "running") and not work.stopping.is_set():
                    return work
            work = Work(next(self._numbers), key, label, run, steps=self.steps)
            self._works[work.number] = work
            for old in [w.number for w in self._works.values() if w.over.is_set()][:-REMEMBERED]:
                del self._works[old]
            self._lane(lane).put(work)
        return work

    def _lane(self, name: str) -> SimpleQueue[Work | None]:
        if name not in self._queues:
            queue: SimpleQueue[Work | None] = SimpleQueue()
            thread = threading.Thread(target=_loop, args=(queue,), name=f"dynoan work {name}", daemon=True)
            self._queues[name] = queue
            self._threads.append(thread)
            thread.start()
        return self._queues[name]

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
        for queue in self._queues.values():
            queue.put(None)
        for thread in self._threads:
            thread.join(2.0)


def _loop(queue: SimpleQueue[Work | None]) -> None:
    while (work := queue.get()) is not None:
        _do(work)


def _nothing(_: Work) -> None:
    """What a work that is over does."""


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
        work.run = _nothing  # it may hold what it worked on, logs of many megabytes, as long as it is remembered
        work.over.set()
        work.steps.made()
        give_back()
