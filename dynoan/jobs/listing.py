"""What lists of a library's files share: the files that cannot be read, and the names that were asked for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dynoan.library.names import printable

if TYPE_CHECKING:
    from dynoan.library.index import Fault


@dataclass(frozen=True)
class UnreadableFile:
    """A file that a list leaves out, since it cannot be read, and why."""

    file: str
    fault: str

    @property
    def warning(self) -> str:
        """The same as a line."""
        return f"{self.file}: left out: {self.fault}"


def left_out(faults: Iterable[Fault]) -> tuple[UnreadableFile, ...]:
    """Return the files that a list leaves out."""
    return tuple(UnreadableFile(printable(fault.file), printable(fault.fault)) for fault in faults)


def is_asked_for(name: str | None, asked: str | None) -> bool:
    """Return whether a name is the one asked for, None for any; upper and lower case do not matter."""
    return asked is None or asked.casefold() == (name or "").casefold()
