"""Channels that carry nothing: stuck, mostly missing, of impossible size, or a time that does not run."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from importers.assumptions.channels import (
    BACKWARD_SHARE,
    MOST_DISPLACEMENT,
    MOST_FORCE,
    MOST_STATIC_FORCE,
    MOST_VELOCITY,
    PRESENT_ROWS,
    PRESENT_SHARE,
    QUASI_STATIC,
    STUCK,
)
from importers.channels.motion_kind import goes_one_way
from importers.channels.rest_force import CountedMotion, largest
from importers.channels.unit_inference import ChannelScale
from importers.parts import SweepPart
from importers.tables import Extent


class ChannelLimit(NamedTuple):
    """The most that any dyno gives."""

    most: float
    unit: str


LIMITS = {
    "force": ChannelLimit(MOST_FORCE, "N"),
    "velocity": ChannelLimit(MOST_VELOCITY, "m/s"),
    "displacement": ChannelLimit(MOST_DISPLACEMENT, "m"),
}
_TIME_HINT = "name {it} with --column time=NAME or give --rate"


class _Reach(NamedTuple):
    """Largest and smallest number of a channel."""

    high: float
    low: float

    @property
    def size(self) -> float:
        return max(abs(self.high), abs(self.low))


def refuse_channels(part: SweepPart, raw: Mapping[str, FloatArray], scales: Mapping[str, ChannelScale]) -> None:
    """Refuse channels that carry nothing.

    Parameters
    ----------
    part
        The trace.
    raw
        Its numbers as they stand, by channel.
    scales
        By what they become SI.

    Raises
    ------
    ReadError
        If a channel is stuck, mostly missing, of impossible size, or time does not run.
    """
    columns = part.roles.channels
    for channel in [c for c in ("force", "velocity", "displacement") if c in scales]:
        where = f"{part.name}, column '{columns[channel].text}'"
        x = raw[channel]
        _refuse_channel(x, part.table.extents.of(x), scales[channel].scale.factor, channel, where)
    if "time" in scales:
        _refuse_time(raw["time"], part.table.extents.of(raw["time"]), f"{part.name}, column '{columns['time'].text}'")


def refuse_pull(part: SweepPart, motion: CountedMotion, fast: float) -> None:
    """Refuse a slow pull one way with more force than gas, friction and bump stops of a shock give: a test of material.

    Raises
    ------
    ReadError
        That the record is of no shock.
    """
    most = largest(motion.force)
    if fast < QUASI_STATIC and most > MOST_STATIC_FORCE and goes_one_way(motion.velocity):
        raise ReadError(
            f"{most / 1e3:.3g} kN at no more than {1e3 * fast:.2g} mm/s, and one way only: a test of material or of a "
            "spring, which holds no damping",
            where=part.name,
            hint="if it is a shock, give the right units with --unit force=UNIT --unit displacement=UNIT",
        )


def _refuse_time(time: FloatArray, extent: Extent, where: str) -> None:
    if extent.rises:
        return
    step = np.diff(time)
    step = step[np.isfinite(step)]
    if len(step) and (step < 0).all():
        raise ReadError("time runs backwards from row to row", where=where, hint="sort the rows by time")
    if len(step) == 0 or not (step > 0).any():
        raise ReadError("time stands still", where=where, hint=_TIME_HINT.format(it="another"))
    if (step < 0).mean() > BACKWARD_SHARE:
        raise ReadError(
            f"time runs backwards in {(step < 0).sum()} places",
            where=where,
            hint=f"is it another quantity? {_TIME_HINT.format(it='it')}",
        )


def _refuse_channel(x: FloatArray, extent: Extent, factor: float, channel: str, where: str) -> None:
    reach = _reach(x, extent, channel, where)
    if reach.high - reach.low <= STUCK * max(reach.size, 1e-300):
        raise ReadError(
            f"{channel} stands at one value in all {len(x)} rows: a stuck sensor, or a column of something else",
            where=where,
            hint=f"name the right one with --column {channel}=NAME",
        )
    limit = LIMITS[channel]
    if reach.size * factor > limit.most:
        raise ReadError(
            f"{channel} reaches {reach.size * factor:.3g} {limit.unit}, more than any dyno gives",
            where=where,
            hint=f"give the right unit with --unit {channel}=UNIT",
        )


def _reach(x: FloatArray, extent: Extent, channel: str, where: str) -> _Reach:
    if extent.complete:
        return _Reach(extent.high, extent.low)
    there = x[np.isfinite(x)]
    if len(there) < max(PRESENT_ROWS, PRESENT_SHARE * len(x)):
        raise ReadError(
            f"only {len(there)} of {len(x)} rows hold a {channel}", where=where, hint="export the run again"
        )
    return _Reach(float(there.max()), float(there.min()))
