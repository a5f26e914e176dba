"""Ending a process at one of its calls of the system, so that every step of a write is met, the short ones too."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable
from typing import IO, Any, NoReturn

STEPS = ("open", "write", "fsync", "link", "replace", "unlink")


def _die() -> NoReturn:
    os.kill(os.getpid(), signal.SIGKILL)
    raise AssertionError("a process outlived its end")


def die_at(step: str, number: int, *, after: bool) -> None:
    """Let this process be killed at its call of that name and number, before it or right after it.

    A write is ended in its midst: half of the bytes are in the file.
    """
    left = [number]

    def counted(whole: Callable[..., Any]) -> Callable[..., Any]:
        def call(*what: Any, **how: Any) -> Any:
            left[0] -= 1
            if left[0]:
                return whole(*what, **how)
            try:
                return whole(*what, **how) if after else None
            finally:  # a call that fails is one, too
                _die()

        return call

    if step == "write":
        os.fdopen = _half(left, os.fdopen)  # type: ignore[assignment]
    else:
        setattr(os, step, counted(getattr(os, step)))


def _half(left: list[int], whole: Callable[..., IO[Any]]) -> Callable[..., IO[Any]]:
    def opened(*what: Any, **how: Any) -> IO[Any]:
        stream = whole(*what, **how)
        if "w" not in (*what[1:], how.get("mode", "r"))[0]:
            return stream
        left[0] -= 1
        return _Cut(stream) if left[0] == 0 else stream  # type: ignore[return-value]

    return opened


class _Cut:
    """A stream whose first write is never finished."""

    def __init__(self, stream: IO[Any]) -> None:
        self.stream = stream

    def __enter__(self) -> _Cut:
        return self

    def __exit__(self, *_what: object) -> None:
        self.stream.close()

    def write(self, data: bytes) -> NoReturn:
        """Write half, and end."""
        self.stream.write(data[: len(data) // 2])
        self.stream.flush()
        _die()
