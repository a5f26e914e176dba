"""A library's folder: where it is, and what its marker says."""

from __future__ import annotations

import datetime
from pathlib import Path

from dynoan.library import marker
from dynoan.units import Shown


class Folder:
    """A folder that is a library."""

    def __init__(self, path: Path) -> None:
        """Open the library at `path`; `LookupFault` where there is none."""
        self.path = path
        self._marker = marker.read(path)
        self.read_in: Shown | None = None  #: the units of who reads, where not the library's

    @property
    def usual_units(self) -> Shown:
        """The units in which speeds that no car's file states are round: the reader's."""
        return self.read_in or self.units

    @property
    def units(self) -> Shown:
        """The units the team wants to see."""
        return self._marker.units

    @property
    def team(self) -> str:
        """The team's name, empty where none is given."""
        return self._marker.team

    def read_again(self) -> None:
        """Take what the marker says now; `LookupFault` where there is none any more."""
        self._marker = marker.read(self.path)

    def _be_there(self) -> None:
        marker.hold_there(self.path)


def now() -> str:
    """Return the present moment as the library writes it."""
    return datetime.datetime.now(datetime.UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
