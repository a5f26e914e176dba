"""The Python door: a library opened for notebooks and scripts, every job a method.

``lib = dynoan.open("team")``, then ``lib.ratio("kestrel")``. A method returns the answer of its job: a frozen dataclass
with figures in SI, ``to_dict()`` (what ``--json`` prints), ``to_frame()``, ``plot()``, and a short HTML form in a
notebook. Its ``warnings`` hold what the command line would print as warnings. Values may be SI numbers or text with a
unit ("2 in/s").
"""

from __future__ import annotations

from pathlib import Path

from dynoan.interface.car import CarJobs
from dynoan.interface.driving import DrivingJobs
from dynoan.interface.files import FileJobs
from dynoan.interface.keeping import KeepingJobs
from dynoan.interface.setups import SetupJobs
from dynoan.interface.shocks import ShockJobs
from dynoan.interface.testing import TestingJobs

__all__ = ["OpenLibrary", "open_library"]


class OpenLibrary(FileJobs, ShockJobs, TestingJobs, CarJobs, SetupJobs, DrivingJobs, KeepingJobs):
    """A library at hand. Each method is a job of the command line with the same name and the same answer."""

    def __repr__(self) -> str:
        return f"<dynoan library at {self._bench.library.path}>"


def open_library(path: str | Path | None = None) -> OpenLibrary:
    """Return the library in a folder, ready to be asked.

    Parameters
    ----------
    path
        The library's folder; None finds it as the command line does: DYNOAN_LIBRARY, else upward from here.

    Raises
    ------
    LibraryError
        If there is no library, or a newer program made it.
    """
    from dynoan.workbench import Workbench

    said: list[str] = []
    return OpenLibrary(Workbench.find(None if path is None else Path(path), said.append), said)
