"""What all jobs about setups share: a setup as plain values, and those that can be read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from dynoan.library.names import printable

if TYPE_CHECKING:
    from dynoan.library.index import Fault
    from dynoan.model.setup import Setup


SETUP_COLUMNS = (
    "name", "car", "date", "surface", "temperature_c", "result", "good", "remarks", "recorded", "file",
)  # fmt: skip


def setup_dict(setup: Setup) -> dict[str, Any]:
    """Return a setup's facts as plain values, as JSON has them."""
    corners = {
        name: {"shock": c.shock, "pack": c.pack, "clicks": dict(c.clicks), "spring_n_m": c.spring, "mass_kg": c.mass}
        for name, c in setup.car.corners.items()
    }
    return setup_row(setup) | {"corners": corners}


def setup_row(setup: Setup) -> dict[str, Any]:
    """Return a setup's facts as a row of a table, the corners aside."""
    return {
        "name": setup.name, "car": setup.car.name, "date": setup.date, "surface": setup.surface,
        "temperature_c": setup.temperature, "result": setup.result, "good": setup.good, "remarks": setup.remarks,
        "recorded": setup.recorded, "file": setup.file,
    }  # fmt: skip


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


def chosen(setups: Iterable[Setup], surface: str | None, car: str | None = None) -> list[Setup]:
    """Return the setups of a surface and a car, None for any; upper and lower case do not matter."""
    return [s for s in setups if _same(surface, s.surface) and _same(car, s.car.name)]


def _same(wanted: str | None, found: str | None) -> bool:
    return wanted is None or wanted.casefold() == (found or "").casefold()
