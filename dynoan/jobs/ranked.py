"""The settings that `choose` ranks highest for a car, for what shows them beside other things."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from dynoan.errors import DynoanError
from dynoan.jobs.choose import Chosen, best_settings
from dynoan.model.car import Car
from dynoan.model.clickmap import ClickMap

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

RANKED = 5  #: settings an axle; more than five nobody tries in a day: common practice, no source


def ranked(bench: Workbench, car: Car, maps: Sequence[ClickMap], said: list[str]) -> tuple[Chosen, ...]:
    """Return the highest ranked settings of each axle with targets, best first; none, with a warning in `said`, where
    they cannot be ranked."""
    if not maps:
        return ()
    try:
        return best_settings(bench, car, maps, RANKED)
    except DynoanError as error:
        said.append(f"car {car.name}: no ranked settings: {error}")
        return ()
