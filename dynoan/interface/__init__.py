"""The Python door: a library opened for notebooks and scripts, every job a method.

``lib = dynoan.open("team")``, then ``lib.ratio("kestrel")``. A method returns the answer of its job: a frozen dataclass
with figures in SI, ``to_dict()`` (what ``--json`` prints), ``to_frame()``, ``plot()``, and a short HTML form in a
notebook. Its ``warnings`` hold what the command line would print as warnings. Values may be SI numbers or text with a
unit ("2 in/s").
"""

from __future__ import annotations

from pathlib import Path

from dynoan.errors import CallError
from dynoan.interface.car import CarJobs
from dynoan.interface.driving import DrivingJobs
from dynoan.interface.files import FileJobs
from dynoan.interface.keeping import KeepingJobs
from dynoan.interface.matching import MatchingJobs
from dynoan.interface.measured import MeasuredJobs
from dynoan.interface.setups import SetupJobs
from dynoan.interface.shocks import ShockJobs
from dynoan.interface.testing import TestingJobs
from dynoan.interface.trials import TrialJobs
from dynoan.interface.what_if import WhatIfJobs

__all__ = ["OpenLibrary", "open_library"]


class OpenLibrary(
    FileJobs, ShockJobs, MatchingJobs, TestingJobs, CarJobs, SetupJobs, DrivingJobs, MeasuredJobs, TrialJobs,
    WhatIfJobs, KeepingJobs,
):  # fmt: skip
    """A library at hand. Each method is a job of the command line with the same name and the same answer."""

    def __repr__(self) -> str:
        return f"<dynoan library at {self._bench.library.path}>"


def open_library(path: str | Path | None = None, *, new: bool = False) -> OpenLibrary:
    """Return the library in a folder, ready to be asked.

    Parameters
    ----------
    path
        The library's folder; None finds it as the command line does: DYNOAN_LIBRARY, else upward from here.
    new
        Make a library of a new or empty folder; one that is there already is opened.

    Raises
    ------
    LibraryError
        If there is no library, a newer program made it, or a new one cannot be made there.
    CallError
        If a new one is asked for and no folder is named.
    """
    from dynoan.library import Library
    from dynoan.workbench import Workbench

    said: list[str] = []
    if new and path is None:
        raise CallError("a new library needs a folder: name one", part="path")
    if new and path is not None:
        return OpenLibrary(Workbench(Library.open_or_create(Path(path).absolute()), said.append), said)
    return OpenLibrary(Workbench.find(None if path is None else Path(path).absolute(), said.append), said)
