"""Which sweep files are known to be whole.

A fitted curve in the cache outlives the sweep it was made of. So that an answer does not hang on whether it was cached,
the sweeps behind it are held against their seals first: each is read through once, and again whenever the disk says
that it has changed. What rots on the disk without that is found by `check`, and by whatever reads the sweep.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path

from dynoan.library.caching import cache, cached
from dynoan.library.index import SETTLED
from dynoan.library.sweep_file import hold_seal

KIND, KEY = "sound", "sweeps"
Stamp = list[int]


def hold_sound(sweeps: Path, names: Iterable[str], caches: Path, read: Callable[[Path], bytes]) -> None:
    """Raise where a sweep file is damaged.

    Parameters
    ----------
    sweeps
        The folder they lie in.
    names
        Their file names.
    caches
        The library's folder of caches, where it is remembered which were whole.
    read
        Returns a file's bytes, or raises `DynoanError`.

    Raises
    ------
    LibraryError
        If a seal does not match.
    """
    known = _known(caches)
    found = {name: stamp for name in names if known.get(name) != (stamp := _stamp(sweeps / name))}
    if not found:
        return
    newest = time.time_ns() - SETTLED
    for name, stamp in found.items():
        hold_seal(read(sweeps / name), f"sweeps/{name}")
        if stamp and max(stamp[1:]) < newest:
            known[name] = stamp
    here = {name: stamp for name, stamp in known.items() if (sweeps / name).exists()}
    cache(caches, KIND, KEY, json.dumps(here, separators=(",", ":")).encode())


def _stamp(path: Path) -> Stamp:
    with suppress(OSError):
        status = path.stat()
        return [status.st_size, status.st_mtime_ns, status.st_ctime_ns]
    return []


def _known(caches: Path) -> dict[str, Stamp]:
    with suppress(ValueError, RecursionError, TypeError):
        found = json.loads(bytes(cached(caches, KIND, KEY) or b"{}"))
        return dict(found)
    return {}
