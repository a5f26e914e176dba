"""Derived results kept by content. Losing one costs time and nothing else, so nothing here is synced or ever fails.

A file is believed only where its checksum holds, which covers the format, the kind, the key (as the file's name has it)
and the content: a flipped bit, a lost tail, and a file that another one was swapped for are all made anew::

    dynoan cache 2\\n          the format
    32 bytes                  SHA-256 of the format, the kind, the file's name and the content
    content
"""

from __future__ import annotations

import hashlib
import os
import re
import secrets
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from dynoan.errors import LibraryError
from dynoan.library.files import TEMPORARY, read_bounded, sweep_temporary

FORMAT = b"dynoan cache 2\n"
MAX_CACHED = 256 << 20  #: a larger result is made anew each time [bytes]
_START = len(FORMAT) + 32
_KIND = re.compile(r"[a-z0-9_-]{1,40}")


def cached(folder: Path, kind: str, key: str) -> memoryview | None:
    """Return what was kept under a kind and key, for reading; None where it is gone or there is any doubt about it."""
    path = _path(folder, kind, key)
    with suppress(LibraryError):
        data = read_bounded(path, _START + MAX_CACHED)
        if _is_sound(kind, path.name, data):
            return memoryview(data)[_START:]
    return None


def cache(folder: Path, kind: str, key: str, data: bytes) -> None:
    """Keep a result under a kind and key, if it is not too large and the disk lets us."""
    path = _path(folder, kind, key)
    if len(data) > MAX_CACHED or not folder.parent.is_dir():  # a library that is gone is not begun anew by its caches
        return
    temporary = path.parent / f"{TEMPORARY}{os.getpid()}-{secrets.token_hex(4)}"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        temporary.write_bytes(FORMAT + _seal(kind, path.name, data) + data)
        os.replace(temporary, path)
    except OSError:
        with suppress(OSError):
            temporary.unlink()


def damaged(folder: Path) -> Iterator[str]:
    """Yield the place inside the caches of each file of this format that is damaged or stands in another's place."""
    for kind, name in _files(folder):
        with suppress(LibraryError):
            data = read_bounded(folder / kind / name, _START + MAX_CACHED)
            if data.startswith(FORMAT) and not _is_sound(kind, name, data):
                yield f"{kind}/{name}"


def tidy(folder: Path) -> None:
    """Delete what writers that died left among the caches."""
    with suppress(OSError):
        for kind in ("", *os.listdir(folder)):
            with suppress(OSError):
                sweep_temporary(folder / kind, os.listdir(folder / kind))


def _files(folder: Path) -> Iterator[tuple[str, str]]:
    with suppress(OSError):
        for kind in sorted(os.listdir(folder)):
            with suppress(OSError):
                names = sorted(os.listdir(folder / kind))
                yield from ((kind, name) for name in names if name.endswith(".bin"))


def _is_sound(kind: str, name: str, data: bytes) -> bool:
    return data.startswith(FORMAT) and data[len(FORMAT) : _START] == _seal(kind, name, memoryview(data)[_START:])


def _seal(kind: str, name: str, content: bytes | memoryview) -> bytes:
    seal = hashlib.sha256(b"".join([FORMAT, kind.encode(), b"\n", os.fsencode(name), b"\n"]))
    seal.update(content)
    return seal.digest()


def _path(folder: Path, kind: str, key: str) -> Path:
    if not _KIND.fullmatch(kind):
        raise ValueError(f"{kind!r} is no kind of cache")
    return folder / kind / f"{hashlib.sha256(key.encode()).hexdigest()[:40]}.bin"
