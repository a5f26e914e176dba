"""What all jobs about setups share: a setup as plain values, and which of them are asked for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from dynoan.jobs.listing import is_asked_for

if TYPE_CHECKING:
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


def chosen(setups: Iterable[Setup], surface: str | None, car: str | None = None) -> list[Setup]:
    """Return the setups of a surface and a car, None for any; upper and lower case do not matter."""
    return [s for s in setups if is_asked_for(s.surface, surface) and is_asked_for(s.car.name, car)]
