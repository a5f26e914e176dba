"""Rig files to sweeps, many at once: in this process, on all cores, or on a cluster."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.batch import iterate
from dynoan.errors import DynoanError
from dynoan.library.files import read_bounded
from dynoan.library.hdf5 import MAX_ORIGINAL
from dynoan.model.importing import ReadOptions
from dynoan.model.sweep import Sweep
from dynoan.reading import read_bytes

if TYPE_CHECKING:
    from dynoan.workbench.fitting_jobs import Progress

WORTH_PROCESSES = 30_000_000  #: starting processes takes longer than reading less than this in one [bytes]


@dataclass(frozen=True)
class Sharing:
    """Who reads the files: by default this process, or all cores where that pays."""

    workers: int | None = None  #: processes
    cluster: str | None = None  #: address of a Dask scheduler, such as "tcp://10.0.0.5:8786"

    def for_files(self, paths: Sequence[Path]) -> Sharing:
        """Return how these files are best read, where nothing else is said."""
        if self.workers is not None or self.cluster is not None:
            return self
        size = sum(path.stat().st_size for path in paths if path.is_file())
        return Sharing(None if size > WORTH_PROCESSES and len(paths) > 1 else 1)


@dataclass(frozen=True)
class Understood:
    """A file's sweeps, or the one line that says why there are none."""

    sweeps: tuple[Sweep, ...] = ()
    error: str | None = None


def understood(
    paths: Sequence[Path], options: ReadOptions, sharing: Sharing, progress: Progress
) -> Iterator[tuple[Path, Understood]]:
    """Yield what is in each file, in order; only a few files are under way at a time.

    Raises
    ------
    CallError
        If the cluster cannot be reached, or its extra is not installed.
    """
    how = sharing.for_files(paths)
    # A cluster's workers may not see this disk: they get the bytes.
    items = (_fetch(path) for path in paths) if how.cluster else paths
    results = iterate(partial(understand, options=options), items, how.workers, cluster=how.cluster)
    for done, (path, found) in enumerate(zip(paths, results, strict=True), 1):
        yield path, found
        progress("reading", done, len(paths))


def fetched(path: Path) -> tuple[str, bytes]:
    """Return a file's name and bytes.

    Raises
    ------
    LibraryError
        If it is no regular file, too large, or cannot be read.
    """
    return path.name, read_bounded(path, MAX_ORIGINAL)


def understand(item: Path | tuple[str, bytes] | Understood, options: ReadOptions) -> Understood:
    """Return the sweeps in a file, given by its path or as name and bytes, or why there are none. Runs in a worker."""
    content = _fetch(item) if isinstance(item, Path) else item
    if isinstance(content, Understood):
        return content
    name, data = content
    try:
        return Understood(read_bytes(data, name, options))
    except (DynoanError, MemoryError) as error:
        return Understood(error=str(error) or f"{name}: not enough memory to read it")
    except Exception as error:  # a fault in one importer must not keep the other files out
        return Understood(error=f"{name}: a fault of the program ({type(error).__name__}: {error})")


def _fetch(path: Path) -> tuple[str, bytes] | Understood:
    try:
        return fetched(path)
    except DynoanError as error:
        return Understood(error=str(error))
