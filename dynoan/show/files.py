"""Writing what people look at: whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from dynoan.errors import CallError


def write_whole(target: Path, body: bytes) -> None:
    """Write a file whole or not at all: a temporary file beside it, then a rename.

    Raises
    ------
    CallError
        If the folder does not exist or cannot be written.
    """
    try:
        handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
    except OSError as error:
        raise CallError(f"{target}: cannot be written ({error.strerror}); name a file in a folder you own") from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(body)
            file.flush()
            os.fsync(file.fileno())
        umask = os.umask(0)
        os.umask(umask)
        os.chmod(name, 0o666 & ~umask)
        os.replace(name, target)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise CallError(f"{target}: cannot be written ({error.strerror})") from None
