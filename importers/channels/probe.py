"""The stretches of a long record that are looked at to understand it all: that must not cost more than parsing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.motion import derived_velocity
from importers.assumptions.channels import PROBE_SAMPLES, PROBE_STRETCHES
from importers.channels.agreement import Stretch
from importers.words.unit_text import UnitScale

_AS_IT_IS = UnitScale(1.0, 0.0)


class Probe(NamedTuple):
    """Stretches of a record, each a few thousand samples without gaps; a short record is one stretch."""

    stretches: tuple[Mapping[str, FloatArray], ...]

    @classmethod
    def of(cls, channels: Mapping[str, FloatArray]) -> Probe:
        """Return the probe of a record."""
        n = len(next(iter(channels.values())))
        if n <= PROBE_SAMPLES:
            return cls((dict(channels),))
        size = PROBE_SAMPLES // PROBE_STRETCHES
        starts = np.linspace(0, n - size, PROBE_STRETCHES).astype(int)
        return cls(tuple({c: x[s : s + size] for c, x in channels.items()} for s in starts))

    def scaled(self, by: Mapping[str, UnitScale]) -> Probe:
        """Return the probe in SI; channels not named are left out."""
        return Probe(tuple({c: _scaled(s[c], u) for c, u in by.items()} for s in self.stretches))

    def has(self, *channels: str) -> bool:
        """Whether all these channels are there."""
        return all(c in self.stretches[0] for c in channels)

    def joined(self, channel: str) -> FloatArray:
        """Return the samples of a channel, one stretch after the other."""
        parts = [s[channel] for s in self.stretches]
        return parts[0] if len(parts) == 1 else np.concatenate(parts)

    def velocity(self, rate: float) -> FloatArray:
        """Return velocity as recorded, or derived from displacement in SI. [m/s]"""
        if self.has("velocity"):
            return self.joined("velocity")
        return np.concatenate([derived_velocity(s["displacement"], 1 / rate) for s in self.stretches])

    def moving(self, rate: float | None) -> list[Stretch]:
        """Return displacement and velocity with the time between samples; by samples where no rate is known."""
        step = 1 / rate if rate else 1.0
        return [Stretch(s["displacement"], s["velocity"], step, s.get("time")) for s in self.stretches]


def _scaled(x: FloatArray, by: UnitScale) -> FloatArray:
    """Return a copy in SI; what is in SI as it stands and stays so, itself."""
    if by == _AS_IT_IS and not x.flags.writeable:
        return x
    out = x * by.factor
    if by.zero:
        out += by.zero
    return out
