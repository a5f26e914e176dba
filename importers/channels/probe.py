"""The stretches of a long record that are looked at to understand it all: that must not cost more than parsing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.channels.agreement import Stretch

MOST = 1 << 16
_COUNT = 8


@dataclass(frozen=True)
class Probe:
    """Stretches of a record, each a few thousand samples without gaps; a short record is one stretch."""

    stretches: tuple[Mapping[str, FloatArray], ...]

    @classmethod
    def of(cls, channels: Mapping[str, FloatArray]) -> Probe:
        """Return the probe of a record."""
        n = len(next(iter(channels.values())))
        if n <= MOST:
            return cls((dict(channels),))
        size = MOST // _COUNT
        starts = np.linspace(0, n - size, _COUNT).astype(int)
        return cls(tuple({c: x[s : s + size] for c, x in channels.items()} for s in starts))

    def scaled(self, by: Mapping[str, tuple[float, float]]) -> Probe:
        """Return the probe with channels multiplied and shifted; channels not named are left out."""
        return Probe(tuple({c: s[c] * k + o for c, (k, o) in by.items()} for s in self.stretches))

    def has(self, *channels: str) -> bool:
        """Whether all these channels are there."""
        return all(c in self.stretches[0] for c in channels)

    def joined(self, channel: str) -> FloatArray:
        """Return the samples of a channel, one stretch after the other."""
        parts = [s[channel] for s in self.stretches]
        return parts[0] if len(parts) == 1 else np.concatenate(parts)

    def moving(self, rate: float | None) -> list[Stretch]:
        """Return displacement and velocity with the time between samples; by samples where no rate is known."""
        out = []
        for s in self.stretches:
            time = s.get("time")
            step: float | FloatArray = (
                np.diff(time, prepend=time[:1]) if time is not None else 1 / rate if rate else 1.0
            )
            out.append(Stretch(s["displacement"], s["velocity"], step))
        return out
