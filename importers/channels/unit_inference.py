"""The unit of a channel that none is stated for, where only one makes sense of the motion."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from dynoan.model.motion import derived_velocity
from importers.assumptions.channels import POSSIBLE_RATES, REACH_PERCENTILE, RIG_RATES, RIG_SPEEDS, UNIT_FIT, UNIT_NEAR
from importers.channels.agreement import agreement
from importers.channels.probe import Probe
from importers.words.unit_text import KIND, UnitScale, scale_of

#: units that a channel may be in, by channel
CANDIDATES = {
    "time": ("s", "ms", "µs", "min"),
    "velocity": ("m/s", "mm/s", "in/s", "cm/s"),
    "displacement": ("mm", "m", "in", "cm"),
}
_TIMES = ("s", "ms", "µs")
_AS_IT_STANDS = UnitScale(1.0)


class ChannelScale(NamedTuple):
    """How one channel becomes SI, and why."""

    scale: UnitScale
    unit: str
    why: str

    @classmethod
    def of(cls, channel: str, unit: str, why: str) -> ChannelScale:
        """Return the scale of a unit of a channel's kind."""
        return cls(scale_of(unit, KIND[channel]), unit, why)


def inferred_unit(
    channel: str, raw: Probe, scales: Mapping[str, ChannelScale], rate: float | None
) -> ChannelScale | None:
    """Return the one unit of a channel that makes sense of the motion, or None.

    Parameters
    ----------
    channel
        The channel without a unit.
    raw
        The record as it stands.
    scales
        The channels whose unit is known.
    rate
        The stated sample rate, where there is no time column. [Hz]
    """
    if channel not in CANDIDATES:
        return None
    found = _by_motion(channel, raw, scales, rate)
    return _time_by_reach(raw, scales) if found is None and channel == "time" else found


def _by_motion(channel: str, raw: Probe, scales: Mapping[str, ChannelScale], rate: float | None) -> ChannelScale | None:
    """Return the one unit with which displacement is the integral of velocity."""
    by = {c: s.scale for c, s in scales.items()} | {channel: _AS_IT_STANDS}
    needed = ("displacement", "velocity") + (("time",) if raw.has("time") else ())
    if any(c not in by for c in needed) or not (raw.has("time") or rate):
        return None
    found = agreement(raw.scaled({c: by[c] for c in needed}).moving(rate))
    if abs(found.fit) < UNIT_FIT:
        return None
    ratio = abs(found.scale)
    for unit in CANDIDATES[channel]:
        factor = scale_of(unit, KIND[channel]).factor
        if abs(ratio * (factor if channel == "displacement" else 1 / factor) - 1) < UNIT_NEAR:
            why = f"no unit stated; only {unit} makes displacement the integral of velocity"
            return ChannelScale.of(channel, unit, why)
    return None


def _time_by_reach(raw: Probe, scales: Mapping[str, ChannelScale]) -> ChannelScale | None:
    """Return the one unit of time with which the motion is one a rig can make."""
    time = raw.stretches[0]["time"]
    step = float(np.nanmedian(np.diff(time))) if len(time) > 2 else 0.0
    if step <= 0:
        return None
    fits = [unit for unit in _TIMES if _possible(raw, scales, step * scale_of(unit, "time").factor)]
    if len(fits) != 1:
        return None
    why = f"no unit stated; only {fits[0]} gives a motion and a sample rate that a rig can make"
    return ChannelScale.of("time", fits[0], why)


def _possible(raw: Probe, scales: Mapping[str, ChannelScale], step: float) -> bool:
    """Whether a rig can make the motion with this time between samples [s]."""
    if "displacement" not in scales:
        return RIG_RATES[0] <= 1 / step <= RIG_RATES[1]
    x = raw.stretches[0]["displacement"] * scales["displacement"].scale.factor
    speed = float(np.nanpercentile(np.abs(derived_velocity(x, step)), REACH_PERCENTILE))
    return RIG_SPEEDS[0] <= speed <= RIG_SPEEDS[1] and POSSIBLE_RATES[0] <= 1 / step <= POSSIBLE_RATES[1]
