"""Derived results kept by content. Losing one costs time and nothing else, so nothing here is synced or ever fails."""

from __future__ import annotations

import hashlib
import os
import re
import secrets
from contextlib import suppress
from pathlib import Path

from dynoan.library.files import TEMPORARY

_KIND = re.compile(r"[a-z0-9_-]{1,40}")


def cached(folder: Path, kind: str, key: str) -> bytes | None:
    """Return what was kept under a kind and key, None where it is gone or its checksum fails."""
    with suppress(OSError):
        data = _path(folder, kind, key).read_bytes()
        if hashlib.sha256(data[32:]).digest() == data[:32]:
            return data[32:]
    return None


def cache(folder: Path, kind: str, key: str, data: bytes) -> None:
    """Keep a result under a kind and key, if the disk lets us."""
    path = _path(folder, kind, key)
    temporary = path.parent / f"{TEMPORARY}{os.getpid()}-{secrets.token_hex(4)}"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        temporary.write_bytes(hashlib.sha256(data).digest() + data)
        os.replace(temporary, path)
    except OSError:
        with suppress(OSError):
            temporary.unlink()


def _path(folder: Path, kind: str, key: str) -> Path:
    if not _KIND.fullmatch(kind):
        raise ValueError(f"{kind!r} is no kind of cache")
    return folder / kind / f"{hashlib.sha256(key.encode()).hexdigest()[:40]}.bin"
