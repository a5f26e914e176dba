"""Texts that people edit bear no checksum; what is remembered of them tells an edit from rot.

Whoever edits a file gives it another time of change. A file whose content differs from what was read before, while its
size and its time of change do not, was changed by the disk or by the way it was copied.
"""

from __future__ import annotations

import hashlib
import json
import time
from contextlib import suppress
from pathlib import Path

from dynoan.errors import LibraryError
from dynoan.library.caching import cache, cached
from dynoan.library.index import SETTLED
from dynoan.library.toml_text import read_text

KIND = "text"


def read_held(path: Path, shown: str, caches: Path) -> str:
    """Return a text file of at most 1 MB, held against what was read of it before.

    Parameters
    ----------
    path
        The file.
    shown
        What an error calls it, such as "cars/kestrel.toml".
    caches
        The library's folder of caches; what is remembered goes by the file's place in the library.

    Raises
    ------
    LibraryError
        If it cannot be read, or its content is another while size and time of change are the same.
    """
    stamp = _stamp(path)
    text = read_text(path, shown)
    seal = hashlib.sha256(text.encode()).hexdigest()
    place = path.relative_to(caches.parent).as_posix()
    known = _known(caches, place)
    if known[:2] == stamp and known[2] != seal:
        raise LibraryError(
            "damaged (its content is another than before, its size and time of change are not)",
            where=shown,
            hint="look it over, put it right, and save it anew",
        )
    settled = stamp[1] < time.time_ns() - SETTLED
    if settled and stamp == _stamp(path) and known != [*stamp, seal]:
        cache(caches, KIND, place, json.dumps([*stamp, seal]).encode())
    return text


def _stamp(path: Path) -> list[int]:
    with suppress(OSError):
        status = path.stat()
        return [status.st_size, status.st_mtime_ns]
    return [0, 0]


def _known(caches: Path, place: str) -> list[object]:
    with suppress(ValueError, RecursionError, TypeError):
        found = json.loads(bytes(cached(caches, KIND, place) or b"[]"))
        if isinstance(found, list) and len(found) == 3:
            return found
    return [None, None, None]
