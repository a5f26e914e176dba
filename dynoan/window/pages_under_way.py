"""Pages that are being made, which what is loaded ahead of need waits for."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager


class PagesUnderWay:
    """Counts the pages that are being made."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self._count = 0
        self._last = -float("inf")  #: when the last one was ready [s]
        self._ends = 0  #: how often waiting was ended

    @contextmanager
    def one(self) -> Iterator[None]:
        """Make a page inside."""
        with self._changed:
            self._count += 1
        try:
            yield
        finally:
            with self._changed:
                self._count -= 1
                self._last = time.monotonic()
                self._changed.notify_all()

    def wait_for_none(self, moment: float) -> bool:
        """Return once none is under way and the last one is so old [s]; False where waiting was ended before."""
        with self._changed:
            ends = self._ends
            while ends == self._ends:
                left = self._last + moment - time.monotonic()
                if not self._count and left <= 0:
                    return True
                self._changed.wait(None if self._count else left)
        return False

    def end_waiting(self) -> None:
        """Let nobody wait longer, as the window shuts."""
        with self._changed:
            self._ends += 1
            self._changed.notify_all()
