"""Files to sweeps: finds the importers and asks the one that recognises a file."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.metadata import EntryPoint, PackageNotFoundError, distribution, entry_points
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.errors import ReadError
from dynoan.model.importing import HEAD, Importer, LogImporter, NamingImporter, ReadOptions
from dynoan.model.log import Log
from dynoan.model.sweep import Sweep

if TYPE_CHECKING:
    from dynoan.model.arrays import FloatArray, IntArray

GROUP = "dynoan.importers"
MAX_FILE = 1 << 30  #: no rig or logger writes more [bytes]
UNEVEN = 0.08  #: a step that far from the usual one is uneven; beyond what rounded stamps make; our judgement [1]
LOST_STEPS = 1.6  #: a longer time between samples has lost one, where the clock is even; our judgement [samples]
LOST_SHARE = 0.02  #: where more steps are so long, the clock is not even; our judgement [1]
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
    own = {point.name: point for point in _own_points()}
    # A package that names its importer like a built-in one does not take its place.
    added = {point.name: point for point in entry_points(group=GROUP) if point.name not in own}
    return (*(_added(added[name]) for name in sorted(added)), *_built_in(own))


def _own_points() -> Iterable[EntryPoint]:
    """Return the entry points of this distribution, as it is installed."""
    try:
        return distribution(_DISTRIBUTION).entry_points.select(group=GROUP)
    except PackageNotFoundError as error:
        raise ReadError(f"{_NOT_INSTALLED} (no package {_DISTRIBUTION})") from error


def _added(point: EntryPoint) -> Importer:
    """Return the importer of another package."""
    try:
        found: Importer = point.load()
    except Exception as error:
        raise ReadError(
            f"importer '{point.name}' cannot be loaded ({error})", hint="mend or uninstall its package"
        ) from error
    return found


def _built_in(own: Mapping[str, EntryPoint]) -> Sequence[Importer]:
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
    for importer in given:
        if importer.recognises(head, name).yes:
            return importer.read(data, name, options or ReadOptions())
    # The text importer's own error says more of a text file than that nobody recognised it.
    return given[-1].read(data, name, options or ReadOptions())


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


def velocity(sweep: Sweep) -> FloatArray | None:
    """Return the velocity of a sweep [m/s], derived from displacement where none was recorded; None without a rate."""
    if "velocity" in sweep.channels:
        return sweep.channels["velocity"]
    if sweep.rate is None or "displacement" not in sweep.channels:
        return None
    import numpy as np

    from dynoan.model.motion import derived_velocity
    from dynoan.model.sampling import CHANGES, PAUSE_STEPS, rate_range, running_middle

    x, time = sweep.channels["displacement"], sweep.channels.get("time")
    gaps = np.empty(0, np.int64)
    if time is not None and len(time) > 1 and np.isfinite(time.sum() + x.sum()):
        steps = np.diff(time) * sweep.rate
        if 0 < steps.min() < CHANGES * steps.max():
            local = running_middle(steps)
            if rate_range(local, float(np.median(steps))):
                return _by_pieces(x, time, np.flatnonzero(steps > PAUSE_STEPS * local) + 1)
        if np.all(steps > 0) and np.mean(np.abs(steps - 1) > UNEVEN) > LOST_SHARE and steps.max() < PAUSE_STEPS:
            return _uneven_velocity(x, time, sweep.rate)
        lost = np.flatnonzero(steps > LOST_STEPS) + 1
        gaps = lost if len(lost) < LOST_SHARE * len(x) else np.flatnonzero(steps > PAUSE_STEPS) + 1
    # Where samples are missing the motion went on unseen: what lies between the ones around is no step of it.
    return np.concatenate([derived_velocity(stretch, 1 / sweep.rate) for stretch in np.split(x, gaps)])


def _by_pieces(x: FloatArray, time: FloatArray, cuts: IntArray) -> FloatArray:
    """Return the velocity of a record whose rate goes with its speed, each piece between pauses by itself. [m/s]"""
    import numpy as np

    from dynoan.model.motion import derived_velocity
    from dynoan.model.sampling import running_mean

    found = []
    for piece, at in zip(np.split(x, cuts), np.split(time, cuts), strict=True):
        steps = running_mean(np.diff(at))
        found.append(derived_velocity(piece, 1.0) / np.append(steps, steps[-1:] if len(steps) else np.nan))
    return np.concatenate(found)


def _uneven_velocity(x: FloatArray, time: FloatArray, rate: float) -> FloatArray:
    """Return the velocity of samples at uneven stamps: either they were taken so, or an even clock was stamped so.

    The smoother of the two is the motion's: the other holds the steps of the stamps. [m/s]
    """
    import numpy as np

    from dynoan.model.motion import derived_velocity

    even = time[0] + np.arange(int((time[-1] - time[0]) * rate) + 1) / rate
    stamped = np.interp(time, even, derived_velocity(np.interp(even, time, x), 1 / rate))
    counted = derived_velocity(x, 1 / rate)
    return min(stamped, counted, key=lambda v: float(np.sum(np.diff(v, 2) ** 2)))


@dataclass(frozen=True)
class Peaks:
    """The largest velocity and force of a record in one direction, magnitudes; None where it holds none."""

    velocity: float | None  #: [m/s]
    force: float | None  #: [N]


def peaks(sweep: Sweep) -> dict[str, Peaks]:
    """Return the peaks of a record as read, gas force and offset still in, by direction."""
    import numpy as np

    v, force = velocity(sweep), sweep.channels["force"]
    found = {}
    for way, turn in (("compression", 1.0), ("rebound", -1.0)):
        f = turn * force
        if sweep.layout == "peaks" and v is not None:
            f = f[turn * v > 0]
        speed = turn * v[np.isfinite(v)] if v is not None else np.empty(0)
        f = f[np.isfinite(f)]
        fast = float(speed.max()) if len(speed) and speed.max() > 0 else None
        found[way] = Peaks(fast, float(f.max()) if len(f) and f.max() > 0 else None)
    return found
