"""From a column to a shock's travel, what its sensor wrote by mistake left out, and where it ran out of its range."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.sensors.clipping import Clipped, clipped
from dynoan.analysis.sensors.dropouts import dropouts
from dynoan.jobs.travel.asked import TravelScale
from dynoan.jobs.travel.channels import in_metres
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.model.log import LogColumn


@dataclass(frozen=True)
class SensedTravel:
    """Travel of a shock as its sensor tells it, before its zero is taken."""

    values: FloatArray  #: NaN where it was not logged, or a drop-out, shape (n,) [m]
    lost: int  #: drop-outs left out [samples]
    ends: Clipped  #: samples at an end of the sensor's range: low in rebound, high in compression

    def at_end(self, direction: Direction) -> float | None:
        """Return the travel at which the sensor ends in a direction; None where it never does. [m]"""
        there = self.ends.high if direction == "compression" else self.ends.low
        return float(np.median(self.values[there])) if there.any() else None

    @property
    def shares(self) -> dict[Direction, float]:
        """How much of the log lies at an end of the range, by direction. [1]"""
        return {d: float(np.mean(self.ends.high if d == "compression" else self.ends.low)) for d in DIRECTIONS}


def sensed_travel(column: LogColumn, scale: TravelScale | None) -> SensedTravel:
    """Return a column as travel, its drop-outs left out.

    Raises
    ------
    QuantityError
        If its unit is no length and no scale is given, or the scale is per another unit.
    """
    lost = dropouts(column.values)
    travel = np.where(lost, np.nan, in_metres(column, scale))
    return SensedTravel(travel, int(lost.sum()), clipped(travel))
