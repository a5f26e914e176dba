"""Files to sweeps: finds the importers and asks the one that recognises a file."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from importlib.metadata import entry_points
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.errors import ReadError
from dynoan.model.importing import Importer, LogImporter, ReadOptions
from dynoan.model.log import Log
from dynoan.model.sweep import Sweep

if TYPE_CHECKING:
    from dynoan.model.arrays import FloatArray

GROUP = "dynoan.importers"
HEAD = 65536
_BUILT_IN = ("excel", "text")


@lru_cache(maxsize=1)
def importers() -> tuple[Importer, ...]:
    """Return the importers: those of installed packages first, by name, then the built-in ones."""
    import importers as built_in

    known: dict[str, Importer] = {"excel": built_in.EXCEL, "text": built_in.TEXT}
    added = {point.name: point for point in entry_points(group=GROUP) if point.name not in known}
    found = []
    for name in sorted(added):
        try:
            found.append(added[name].load())
        except Exception as error:
            raise ReadError(f"importer '{name}' cannot be loaded ({error}); mend or uninstall its package") from error
    return (*found, *(known[name] for name in _BUILT_IN))


def read(path: Path | str, options: ReadOptions | None = None) -> tuple[Sweep, ...]:
    """Return the sweeps in a rig's file.

    Parameters
    ----------
    path
        The file.
    options
        What the user states; it wins over what the file says.

    Raises
    ------
    ReadError
        If no importer understands the file; the text names file, place and way out.
    OSError
        If the file cannot be opened.
    """
    path = Path(path)
    if path.is_dir():
        raise ReadError(f"{path}: this is a folder; name the files in it")
    return read_bytes(path.read_bytes(), path.name, options)


def read_bytes(
    data: bytes, name: str, options: ReadOptions | None = None, *, among: Iterable[Importer] | None = None
) -> tuple[Sweep, ...]:
    """Return the sweeps in a file's bytes.

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
    if path.is_dir():
        raise ReadError(f"{path}: this is a folder; name the log in it")
    return read_log_bytes(path.read_bytes(), str(path))


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


def velocity(sweep: Sweep) -> FloatArray | None:
    """Return the velocity of a sweep [m/s], derived from displacement where none was recorded; None without a rate."""
    if "velocity" in sweep.channels:
        return sweep.channels["velocity"]
    if sweep.rate is None or "displacement" not in sweep.channels:
        return None
    from importers.channels.agreement import derived

    return derived(sweep.channels["displacement"], 1 / sweep.rate)


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
