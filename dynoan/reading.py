"""Files to sweeps: finds the importers and asks the one that recognises a file."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from pathlib import Path

from dynoan.errors import ReadError
from dynoan.installed import LoadablePoint, installed_points
from dynoan.model.importing import HEAD, Importer, LogImporter, NamingImporter, ReadOptions
from dynoan.model.log import Log
from dynoan.model.sweep import Sweep

GROUP = "dynoan.importers"
MAX_FILE = 1 << 30  #: no rig or logger writes more [bytes]
_DISTRIBUTION = "dynoan"
_BUILT_IN = ("excel", "text")  #: in the order in which they are asked, after all others
_NOT_INSTALLED = "the importers of dynoan are not installed as this source tree names them; run pip install -e . in it"


@lru_cache(maxsize=1)
def importers() -> tuple[Importer, ...]:
    """Return the importers: those of installed packages first, by name, then the built-in ones.

    Raises
    ------
    ReadError
        If one cannot be loaded, or the entry points of this distribution are missing or stale.
    """
    own, others = installed_points(GROUP, _DISTRIBUTION)
    if own is None:
        raise ReadError(f"{_NOT_INSTALLED} (no package {_DISTRIBUTION})")
    # A package that names its importer like a built-in one does not take its place.
    return (*(_added(others[name]) for name in sorted(others) if name not in own), *_built_in(own))


def _added(point: LoadablePoint) -> Importer:
    """Return the importer of another package."""
    try:
        found: Importer = point.load()
    except Exception as error:
        raise ReadError(
            f"importer '{point.name}' cannot be loaded ({error})", hint="mend or uninstall its package"
        ) from error
    return found


def _built_in(own: Mapping[str, LoadablePoint]) -> Sequence[Importer]:
    """Return the importers of this distribution in the order in which they are asked."""
    lacking = [name for name in _BUILT_IN if name not in own]
    if lacking:
        raise ReadError(f"{_NOT_INSTALLED} (no importer {' and '.join(lacking)})")
    try:
        return [own[name].load() for name in _BUILT_IN]
    except (ImportError, AttributeError) as error:
        raise ReadError(f"{_NOT_INSTALLED} ({error})") from error


def read(path: Path | str, options: ReadOptions | None = None) -> tuple[Sweep, ...]:
    """Return the sweeps in a rig's file as `dynoan.read` does; a `ReadError` speaks of the command line's options."""
    path = Path(path)
    return read_bytes(_content(path, "the files"), path.name, options)


def read_bytes(
    data: bytes, name: str, options: ReadOptions | None = None, *, among: Iterable[Importer] | None = None
) -> tuple[Sweep, ...]:
    """Return the sweeps in a file's bytes.

    Parameters
    ----------
    data
        The whole file.
    name
        Its name, without folders.
    options
        What the user states; it wins over what the file says.
    among
        The importers to ask, all known ones where none are given; the last has the last word.

    Raises
    ------
    ReadError
        If no importer understands them.
    """
    head = data[:HEAD]
    given = tuple(importers() if among is None else among)
    # The last need not be asked: its own error says more of a text file than that nobody recognised it.
    chosen = next((importer for importer in given[:-1] if importer.recognises(head, name).yes), given[-1])
    return chosen.read(data, name, options or ReadOptions())


def read_log(path: Path | str) -> Log:
    """Return what a logger on the car wrote.

    Raises
    ------
    ReadError
        If no importer finds a table of numbers with named columns in it.
    OSError
        If the file cannot be opened.
    """
    path = Path(path)
    return read_log_bytes(_content(path, "the log"), str(path))


def _content(path: Path, wanted: str) -> bytes:
    """Return a file's bytes; a pipe, which may never answer, and a device, which may never end, are refused."""
    if path.is_dir():
        raise ReadError("this is a folder", where=path, hint=f"name {wanted} in it")
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with os.fdopen(handle, "rb") as stream:
        status = os.fstat(stream.fileno())
        if not stat.S_ISREG(status.st_mode):
            raise ReadError("not a regular file", where=path, hint="save what it gives as a file, and name that")
        if status.st_size > MAX_FILE:
            raise ReadError(
                f"{status.st_size} bytes, more than the {MAX_FILE} that are read", where=path, hint="take a part"
            )
        return stream.read(MAX_FILE)


def read_log_bytes(data: bytes, path: str) -> Log:
    """Return the log that a file's bytes hold; `path` is what to call it.

    Raises
    ------
    ReadError
        If no importer finds a table of numbers with named columns in it.
    """
    name, head = Path(path).name, data[:HEAD]
    readers = [i for i in importers() if isinstance(i, LogImporter)]
    chosen = next((i for i in readers if i.recognises(head, name).yes), readers[-1])
    return Log(path, chosen.columns(data, name))


def column_names(path: Path | str, options: ReadOptions | None = None) -> tuple[str, ...]:
    """Return the names of the columns of a file's first table, as they stand in it; none where none are named.

    Raises
    ------
    ReadError
        If the file is no text, or holds no table of numbers.
    OSError
        If it cannot be opened.
    """
    path = Path(path)
    data = _content(path, "the files")
    namers = [i for i in importers() if isinstance(i, NamingImporter)]
    chosen = next((i for i in namers if i.recognises(data[:HEAD], path.name).yes), None)
    return () if chosen is None else chosen.column_names(data, path.name, options or ReadOptions())
