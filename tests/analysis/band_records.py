"""Made-up records of exact broken lines of several kinds, to hold 95 % bands against the truth."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Curve
from dynoan.model.sweep import Source, Sweep
from tests.analysis.conditioning_records import trace


@dataclass(frozen=True)
class Line:
    """An exact broken line: speeds of its ends and knees, and forces there, both directions. SI."""

    speeds: tuple[float, ...]
    compression: tuple[float, ...]
    rebound: tuple[float, ...]

    def __call__(self, v: FloatArray) -> FloatArray:
        up, down = np.interp(v, self.speeds, self.compression), np.interp(-v, self.speeds, self.rebound)
        return np.where(v >= 0, up, -down)

    @property
    def knees(self) -> tuple[float, ...]:
        return self.speeds[1:-1]

    @property
    def top(self) -> float:
        return self.speeds[-1]

    @property
    def noise(self) -> float:
        """One percent of the largest force of the softer direction. [N]"""
        return 0.01 * min(self.compression[-1], self.rebound[-1])


#: one, two and three knees, plain and faint, at other scales
LINES = {
    "two knees, the second faint": Line((0, 0.06, 0.2, 0.5), (0, 300, 550, 1000), (0, 420, 800, 1500)),
    "one plain knee": Line((0, 0.1, 0.5), (0, 600, 1200), (0, 500, 1300)),
    "one faint knee, soft": Line((0, 0.3, 1.0), (0, 90, 250), (0, 150, 420)),
    "two plain knees, fast": Line((0, 0.15, 0.6, 1.5), (0, 900, 1500, 3300), (0, 1400, 2300, 4900)),
    "three plain knees": Line((0, 0.06, 0.2, 0.35, 0.5), (0, 300, 550, 700, 1100), (0, 500, 900, 1100, 1700)),
}


@dataclass
class Tally:
    """How often bands held the truth so far, and how far knees were off."""

    held: list[float] = field(default_factory=list)  #: share of speeds, a record's direction each
    counts: list[bool] = field(default_factory=list)  #: whether it had the true number of knees
    knees: list[bool] = field(default_factory=list)  #: whether the interval held it, of those
    errors: list[float] = field(default_factory=list)  #: of its place, as a share

    @property
    def right(self) -> float:
        return float(np.mean(self.counts))

    def add(self, curve: Curve, line: Line) -> None:
        for sign, side in ((1.0, curve.compression), (-1.0, curve.rebound)):
            speeds = np.linspace(max(side.low_speed, 0.02 * line.top), 0.98 * line.top, 40)
            truth = np.abs(line(sign * speeds))
            low, high = side.band(speeds)
            self.held.append(float(np.mean((low <= truth) & (truth <= high))))
            self.counts.append(len(side.knees) == len(line.knees))
            if self.counts[-1]:
                pairs = list(zip(side.knees, line.knees, strict=True))
                self.knees += [found.low <= true <= found.high for found, true in pairs]
                self.errors += [abs(found.velocity / true - 1) for found, true in pairs]


def broken_trace(line: Line, seed: int, *, noise: str = "independent", samples: int = 20_000) -> Sweep:
    """A trace of 20 cycles with 1 % noise: independent, or half of it whole cycles that lie high, low or steep."""
    rng = np.random.default_rng(seed)
    cycles, t = 20, np.arange(samples) / 1000.0
    omega = 2 * np.pi * cycles / (samples / 1000.0)
    v, x = line.top * np.sin(omega * t), -line.top / omega * np.cos(omega * t)
    error = rng.normal(0, line.noise, samples)
    if noise == "cycles":
        cycle = np.arange(samples) * cycles // samples
        error = 0.5 * error + rng.normal(0, 0.6 * line.noise, cycles)[cycle]
        error += line(v) * rng.normal(0, 0.01, cycles)[cycle]
    return trace(t, x, line(v) + error, channels={"velocity": v})


def broken_staircase(line: Line, seed: int, *, samples: int = 20_000) -> Sweep:
    """A trace of four speeds one after the other, six cycles each or more, with independent 1 % noise; no velocity."""
    rng = np.random.default_rng(seed)
    stroke, rate = 0.05, 1000.0
    x: list[FloatArray] = []
    v: list[FloatArray] = []
    for share in (0.12, 0.3, 0.6, 1.0):
        omega = share * line.top / (stroke / 2)
        period = 2 * np.pi / omega
        cycles = max(6, int(samples / rate / 4 / period))
        t = np.arange(int(cycles * period * rate)) / rate
        x.append(-stroke / 2 * np.cos(omega * t))
        v.append(share * line.top * np.sin(omega * t))
    at, speed = np.concatenate(x), np.concatenate(v)
    force = line(speed) + rng.normal(0, line.noise, len(speed))
    return trace(np.arange(len(at)) / rate, at, force)


def broken_table(line: Line, seed: int, *, scatter: float = 0.01, rows: int = 12) -> Sweep:
    """A peak table of speeds in both directions, the same for both, closer together at low ones."""
    rng = np.random.default_rng(seed)
    few = np.array([0.04, 0.08, 0.12, 0.16, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.84, 1.0])
    some = np.interp(np.linspace(0, 1, rows), np.linspace(0, 1, 12), few) * line.top
    v = np.concatenate([some, -some])
    force = line(v) * (1 + rng.normal(0, scatter, len(v)))
    return Sweep("peaks", {"velocity": v, "force": force}, Source("table.csv", "0"), gas_removed=True)
