"""What to measure first: of all that is unsure of a launch, what moves the figures most that people decide by."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from dynoan.analysis.launch.compare import NO_DIFFERENCE
from dynoan.jobs.launch.measure_first import Shift
from dynoan.jobs.launch.not_in_file import RISE_KEY

#: the figures for which a person asks what to measure first, and those where the driven wheels spin
MEASURED_FOR = ("level_nose_rise_m", "level_nose_rise_rate_m_s", "level_rear_squat_m")
WHERE_THEY_SPIN = ("wheelspin_s", "distance_m")


@dataclass(frozen=True)
class MeasureFirst:
    """The value of the car that moves a figure most within its ±."""

    surface: str
    figure: str
    key: str  #: of the car's file
    low: float  #: change of the figure with the value at its lower end, SI
    high: float  #: at its upper end

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain values."""
        return {"surface": self.surface, "figure": self.figure, "key": self.key, "low": self.low, "high": self.high}


def first_of(surface: str, shifts: Sequence[Shift], figures: Mapping[str, float], spins: bool) -> list[MeasureFirst]:
    """Return what moves the figures most that people decide by: behind how the drive comes in a value of the car, too.

    Parameters
    ----------
    surface
        Its name.
    shifts
        Of every uncertain value there.
    figures
        Of the car as it is.
    spins
        Whether the driven wheels do.
    """
    out = []
    for figure in (*MEASURED_FOR, *(WHERE_THEY_SPIN if spins else ())) if shifts else ():
        ordered = sorted(shifts, key=lambda shift: -shift.size(figure))
        out += [
            MeasureFirst(surface, figure, one.key, one.low[figure], one.high[figure])
            for one in ordered[: 2 if ordered[0].key == RISE_KEY else 1]
            if one.size(figure) > NO_DIFFERENCE * abs(figures[figure])
        ]
    return out
