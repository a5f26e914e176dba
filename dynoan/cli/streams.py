"""Standard output and standard error that hold whatever they are connected to, and never change an exit code.

What the encoding of a terminal or a pipe cannot show is spelled in plain letters, else replaced. A reader that has
gone takes nothing more, and the command's own exit code stands. A disk that is full is a fault of the output, told once
the command has ended.
"""

from __future__ import annotations

import codecs
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Any, TextIO

from dynoan.show.text.spelled import replaced


class Held:
    """A text stream whose writing never fails; `fault` is what went wrong with it, beside a reader that has gone."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._gone = False
        self.fault: OSError | None = None

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)

    def write(self, text: str) -> int:
        """Write, unless the stream has failed before; return the number of characters."""
        if not self._gone:
            try:
                self._stream.write(text)
            except OSError as error:
                self._fail(error)
        return len(text)

    def flush(self) -> None:
        """Flush, unless the stream has failed before."""
        if not self._gone:
            try:
                self._stream.flush()
            except OSError as error:
                self._fail(error)

    def _fail(self, error: OSError) -> None:
        self._gone = True
        if not isinstance(error, BrokenPipeError):
            self.fault = error
        # What is still in the stream's buffer would fail again at the end of the program.
        with suppress(OSError, ValueError):
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, self._stream.fileno())
            os.close(nowhere)
            self._stream.flush()


@contextmanager
def held() -> Iterator[tuple[Held, Held]]:
    """Put streams that hold in the place of standard output and standard error, and the old ones back at the end."""
    before = sys.stdout, sys.stderr
    streams = Held(_settled(sys.stdout, 1)), Held(_settled(sys.stderr, 2))
    sys.stdout, sys.stderr = streams
    try:
        yield streams
    finally:
        for stream in streams:
            stream.flush()
        sys.stdout, sys.stderr = before


def _settled(stream: TextIO | None, number: int) -> TextIO:
    """Return a stream that spells what it cannot show; one that leads nowhere where there is none."""
    if stream is None:
        # The first file that the program opens must not be taken for the stream that was closed.
        with suppress(OSError):
            handle = os.open(os.devnull, os.O_WRONLY)
            if handle != number:
                os.dup2(handle, number)
        return open(os.devnull, "w", encoding="utf-8", errors="replace")
    with suppress(AttributeError, ValueError, OSError):
        codecs.register_error("spelled", replaced)
        stream.reconfigure(errors="spelled")  # type: ignore[attr-defined]
    return stream


def shows(text: str) -> bool:
    """Tell whether standard output can show a text as it is."""
    try:
        text.encode(getattr(sys.stdout, "encoding", None) or "utf-8")
    except (UnicodeError, LookupError):
        return False
    return True
