"""Files that are either whole or not there: every write of the library goes through here.

A file is written under a temporary name in its own folder, flushed, synced, put in place in one step, and the folder
is synced. A crash at any moment leaves the old file or the new one, and at worst a temporary file, which nothing
takes for data and which is swept once it is old.
"""

from __future__ import annotations

import errno
import io
import os
import secrets
import stat
import time
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from dynoan.errors import LibraryError
from dynoan.library.disk_faults import fault_of, said_of, way_to

try:
    import fcntl
except ImportError:  # no flock on Windows, where renaming onto an open or existing file fails by itself
    fcntl = None  # type: ignore[assignment]

TEMPORARY = ".tmp-"
LOCK = ".lock"
STALE = 3600.0  #: age at which a leftover temporary file is swept [s]

# Where a disk knows no hard links (FAT sticks, some network shares), linking fails with one of these.
_NO_LINKS = {errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EMLINK, errno.EXDEV, errno.EINVAL}


def write_new(path: Path, data: bytes, *, sync: bool = True) -> bool:
    """Put a new file in place, durably; False, and nothing changed, where one of that name is there already.

    With ``sync=False`` the folder is not synced: the caller does that once for many files, by `sync_folder`.
    """
    try:
        temporary = _write_temporary(path, data)
        try:
            placed = _place_new(temporary, path)
        finally:
            with suppress(OSError):
                temporary.unlink()
    except OSError as error:
        raise fault_of(error, path) from None
    if placed and sync:
        _confirm(path, path.parent)
    return placed


def replace(path: Path, data: bytes) -> None:
    """Put a file in place of the one of that name, if any, durably; who may read it stays, and a link stays a link."""
    replace_all({path: data})


def replace_all(data: Mapping[Path, bytes]) -> None:
    """Put files in place of those of their names, as `replace` does; none of them where there is no room for all."""
    ready: dict[Path, Path] = {}
    try:
        for path, content in data.items():
            place = Path(os.path.realpath(path)) if path.is_symlink() else path
            try:
                ready[place] = _write_temporary(place, content)
                with suppress(FileNotFoundError):
                    _keep_mode(ready[place], place)
            except OSError as error:
                raise fault_of(error, place) from None
        for place, temporary in ready.items():
            try:
                os.replace(temporary, place)
            except OSError as error:
                raise fault_of(error, place) from None
    finally:
        for temporary in ready.values():
            with suppress(OSError):
                temporary.unlink()
    for folder in {place.parent: place for place in ready}.items():
        _confirm(folder[1], folder[0])


def _keep_mode(temporary: Path, path: Path) -> None:
    """Give a file that is to replace another its permissions, as far as they may be given."""
    mode = stat.S_IMODE(path.stat().st_mode)
    if mode != stat.S_IMODE(temporary.stat().st_mode):
        with suppress(OSError):
            temporary.chmod(mode)


def remove(path: Path) -> bool:
    """Delete a file, durably; False where there is none."""
    try:
        path.unlink()
    except FileNotFoundError:
        return False
    except OSError as error:
        raise fault_of(error, path) from None
    _confirm(path, path.parent)
    return True


def _confirm(path: Path, folder: Path) -> None:
    """Make sure that a change of a name outlasts a power cut; what is done already is not said to be undone."""
    try:
        _sync(folder)
    except OSError as error:
        what, _ = said_of(error)
        raise LibraryError(
            f"changed, but the disk does not confirm that this outlasts a power cut ({what})", where=path,
            hint="look whether it is as it should be, and check the disk",
        ) from None  # fmt: skip


def make_folder(path: Path) -> None:
    """Make a folder and what lies above it, unless it is there."""
    try:
        path.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        raise LibraryError("a file of that name is in the way", where=path, hint="move it away") from None
    except OSError as error:
        raise fault_of(error, path) from None


def sync_folder(path: Path) -> None:
    """Make sure that the names in a folder outlast a power cut."""
    _confirm(path, path)


def read_bounded(path: Path, limit: int) -> bytes:
    """Return a file's bytes.

    Raises
    ------
    LibraryError
        If it is missing, no regular file (a pipe would hang, a device never end), or larger than `limit`.
    """
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    except FileNotFoundError:
        raise LibraryError("no such file", where=path, hint=way_to(path)) from None
    except (OSError, ValueError) as error:
        circle = getattr(error, "errno", None) == errno.ELOOP
        hint = "it is a link that leads back to itself: take it away" if circle else ""
        reason = getattr(error, "strerror", None) or error
        raise LibraryError(f"cannot be opened ({reason})", where=path, hint=hint) from None
    try:
        status = os.fstat(handle)
        if stat.S_ISDIR(status.st_mode):
            raise LibraryError("a folder", where=path, hint="name the files in it")
        if not stat.S_ISREG(status.st_mode):
            raise LibraryError("not a regular file", where=path)
        if status.st_size > limit:
            raise LibraryError(f"{status.st_size} bytes, more than the {limit} such a file may have", where=path)
        with os.fdopen(handle, "rb", buffering=0, closefd=False) as stream:
            return _whole(stream, status.st_size, limit)
    except LibraryError:
        raise
    except OSError as error:
        raise LibraryError(
            f"cannot be read ({error.strerror})", where=path, hint="copy what is left elsewhere"
        ) from None
    finally:
        os.close(handle)


def _whole(stream: io.FileIO, size: int, limit: int) -> bytes:
    """Return what a file holds, in one piece of its size: a piece as large as the limit costs as much again."""
    data = stream.read(size + 1)
    while len(data) != size and (more := stream.read(limit + 1 - len(data))):  # it changes meanwhile, or comes in parts
        data += more
    return data


def sweep_temporary(folder: Path, names: Iterable[str], *, older: float = STALE) -> None:
    """Delete temporary files of writers that died, judged by age so that a living writer is never disturbed."""
    for name in names:
        if name.startswith(TEMPORARY):
            with suppress(OSError):
                if time.time() - (folder / name).stat().st_mtime > older:
                    (folder / name).unlink()


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Hold a lock that the system releases when this process ends, however it ends."""
    try:
        handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
    except OSError as error:
        raise fault_of(error, path) from None
    try:
        if fcntl is not None:
            with suppress(OSError):  # a share without locks: go on unlocked rather than not at all
                fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _write_temporary(path: Path, data: bytes) -> Path:
    temporary = path.parent / f"{TEMPORARY}{os.getpid()}-{secrets.token_hex(6)}"
    handle = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
    except BaseException:
        with suppress(OSError):
            temporary.unlink()
        raise
    return temporary


def _place_new(temporary: Path, path: Path) -> bool:
    try:
        if os.name == "nt":
            os.rename(temporary, path)
        else:
            os.link(temporary, path)
    except FileExistsError:
        return False
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
        return _place_locked(temporary, path)
    return True


def _place_locked(temporary: Path, path: Path) -> bool:
    with locked(path.parent / LOCK):
        if path.exists():
            return False
        os.replace(temporary, path)
    return True


def _sync(folder: Path) -> None:
    if os.name == "nt":
        return  # a folder cannot be opened there; the file system logs names itself
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in (errno.EINVAL, errno.ENOTSUP):  # some shares cannot sync a folder
            raise
    finally:
        os.close(handle)
