"""What logged travel shows, a shock at a time, and how it is told."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar

from dynoan.analysis.travel.assumptions import ASK_STEP, NEAR
from dynoan.analysis.travel.summary import CornerTravel, PartTravel
from dynoan.jobs.answering import Answer
from dynoan.jobs.measures import Measure, as_dict
from dynoan.jobs.travel.asked import TravelQuestion
from dynoan.jobs.travel.sensed import SensedTravel
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.model.log import LogColumn


@dataclass(frozen=True)
class LoggedShock:
    """One shock's column, calibrated, how it was understood, and what it shows."""

    column: LogColumn
    scale: str  #: as it was given, else the column's unit
    zero: str  #: where the zero comes from, in words
    travel: CornerTravel
    at: float  #: reading that counts as zero, as travel [m]
    sensed: SensedTravel

    @property
    def corner(self) -> str:
        """Where it is: "fl", "fr", "rl" or "rr"."""
        return self.travel.corner

    def at_least(self, part: PartTravel, direction: Direction) -> bool:
        """Return whether a shock went at least so far in a part of the run, for its sensor ends there."""
        end = self.sensed.at_end(direction)
        if end is None:
            return False
        reached = part.deepest if direction == "compression" else part.longest
        return reached > (end - self.at) * (1 if direction == "compression" else -1) - NEAR

    def to_ask_for(self) -> dict[Direction, float]:
        """Return the speed to ask the dyno for by direction, above the log's peak where no test reaches it. [m/s]"""
        curve, part = self.travel.curve, self.travel.parts["all"]
        if curve is None:
            return {}
        beyond = {d: part.peak[d] for d in DIRECTIONS if part.peak[d] > curve.side(d).top_speed}
        return {d: math.ceil(peak / ASK_STEP) * ASK_STEP for d, peak in beyond.items()}


@dataclass(frozen=True)
class PartSide:
    """One direction of one part of the run of one shock."""

    part: PartTravel
    direction: Direction


#: the figures of a direction; a new one is a line here
SIDE: tuple[Measure[PartSide], ...] = (
    Measure("time_share", "time", lambda s: s.part.moving[s.direction], percent=True),
    Measure("rms_m_s", "rms", lambda s: s.part.rms[s.direction], "velocity"),
    Measure("quantile_95_m_s", "slower 95 % of the time", lambda s: s.part.quantile_95[s.direction], "velocity"),
    Measure("peak_m_s", "peak", lambda s: s.part.peak[s.direction], "velocity"),
)
#: the figures of a part; a new one is a line here
PART: tuple[Measure[PartTravel], ...] = (
    Measure("seconds", "seconds", lambda p: p.seconds, digits=1),
    Measure("still_share", "still", lambda p: p.still, percent=True),
    Measure("deepest_m", "deepest", lambda p: p.deepest, "length"),
    Measure("longest_m", "longest", lambda p: p.longest, "length"),
    Measure("beyond_tested_share", "faster than tested", lambda p: p.beyond_tested, percent=True),
)


@dataclass(frozen=True)
class TravelAnswer(Answer):
    """What `travel` found in a log, a shock at a time."""

    job: ClassVar[str] = "travel"
    question: TravelQuestion
    shocks: tuple[LoggedShock, ...]
    parts_from: str  #: how the parts were found, in words

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan travel --json`` prints it: rebound as magnitudes, the histogram signed."""
        corners = {shock.corner: _shock_dict(shock) for shock in self.shocks}
        return {"file": self.question.log.path, "parts_from": self.parts_from, "corners": corners}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a shock, part and direction."""
        return [
            {"corner": shock.corner, "part": part.name, "direction": d} | as_dict(PART, part)
            | as_dict(SIDE, PartSide(part, d))
            for shock in self.shocks for part in shock.travel.parts.values() for d in DIRECTIONS
        ]  # fmt: skip


def _shock_dict(shock: LoggedShock) -> dict[str, Any]:
    moved, s = shock.travel.motion, shock.travel.motion.smoothing
    return {
        "column": shock.column.name, "unit": shock.column.unit, "scale": shock.scale, "zero": shock.zero,
        "zero_at_m": shock.at, "ask_for_m_s": shock.to_ask_for(),
        "rate_hz": 1 / moved.step, "gaps": moved.gaps, "lost_samples": shock.sensed.lost,
        "sensor_end_share": shock.sensed.shares,
        "filter": {"kind": "Savitzky-Golay", "window_s": s.window, "samples": s.samples, "order": s.order,
                   "cutoff_hz": s.cutoff, "velocity_noise_m_s": s.noise, "travel_noise_m": s.travel_noise},
        "still_below_m_s": shock.travel.still_below,
        "parts": {name: _part_dict(part) for name, part in shock.travel.parts.items()},
    }  # fmt: skip


def _part_dict(part: PartTravel) -> dict[str, Any]:
    ends = {
        key: None if found is None else {"times": found.times, "seconds": found.seconds}
        for key, found in (("bottoming", part.bottomed), ("topping", part.topped))
    }
    return as_dict(PART, part) | {str(d): _side_dict(part, d) for d in DIRECTIONS} | ends | {
        "histogram": {"edges_m_s": part.histogram.edges, "share": part.histogram.share}
    }  # fmt: skip


def _side_dict(part: PartTravel, direction: Direction) -> dict[str, Any]:
    return as_dict(SIDE, PartSide(part, direction)) | {
        "knees": [{"velocity_m_s": k.velocity, "below_share": k.below, "above_share": k.above}
                  for k in part.knees if k.direction == direction],
        "ranges": [{"from_m_s": r.start, "to_m_s": r.end, "time_share": r.time, "energy_j": r.energy,
                    "energy_share": r.share} for r in part.ranges if r.direction == direction],
    }  # fmt: skip
