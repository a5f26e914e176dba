"""The digest of a file's bytes, reckoned beside its reading."""

from __future__ import annotations

from hashlib import sha256
from threading import Event, Thread
from types import TracebackType

_WORTH_A_THREAD = 1 << 20  #: hashing less beside all else takes longer than at once, 0.4 ms [bytes]
_WORTH_A_PAUSE = 1 << 24  #: of a larger file some is left for when its rows are parsed [bytes]
_AT_ONCE = 0.6  #: how much of such a file is hashed at once [1]


class DigestBeside:
    """SHA-256 by a thread of its own, while hashing leaves the interpreter free.

    Parsing a large file takes all cores, the checks of its columns that follow only one: the last part waits for them.
    """

    def __init__(self, data: bytes) -> None:
        self._data = memoryview(data)
        self._found = sha256()
        self._parsed = Event()
        self._thread = Thread(target=self._hash) if len(data) > _WORTH_A_THREAD else None

    def __enter__(self) -> DigestBeside:
        if self._thread is None:
            self._found.update(self._data)
        else:
            self._thread.start()
        return self

    def parsed(self) -> None:
        """Tell that the rows are parsed."""
        self._parsed.set()

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._parsed.set()
        if self._thread is not None:
            self._thread.join()

    def hex(self) -> str:
        """Return the digest in hexadecimal digits; to be asked after the `with` that it stands in."""
        return self._found.hexdigest()

    def _hash(self) -> None:
        size = len(self._data)
        first = int(_AT_ONCE * size) if size > _WORTH_A_PAUSE else size
        self._found.update(self._data[:first])
        if first < size:
            self._parsed.wait()
            self._found.update(self._data[first:])
