"""One direction of a fitted curve: its pieces, its knees and its band, in magnitudes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from dynoan.model.arrays import FloatArray

Character = Literal["digressive", "linear", "progressive"]


@dataclass(frozen=True)
class Knee:
    """The speed where the curve changes slope, with its 95 % interval. Magnitudes."""

    velocity: float  #: [m/s]
    low: float  #: [m/s]
    high: float  #: [m/s]
    force: float  #: [N]


@dataclass(frozen=True)
class Segment:
    """One piece of one direction: ``force = start_force + slope_in·u + bend·u^exponent``, ``u = speed − start``.

    `bend` is zero for a straight piece.
    """

    start: float  #: speed where it begins [m/s]
    end: float  #: speed where it ends [m/s]
    start_force: float  #: [N]
    slope_in: float  #: linear coefficient [N·s/m]
    bend: float = 0.0  #: [N/(m/s)^exponent]
    exponent: float = 2.0
    character: Character = "linear"

    @property
    def slope(self) -> float:
        """Mean slope over the piece. [N·s/m]"""
        return float(self.slope_in + self.bend * (self.end - self.start) ** (self.exponent - 1.0))

    def force(self, speed: FloatArray) -> FloatArray:
        """Return the force at speeds on (or beyond) this piece. [N]"""
        u = np.maximum(speed - self.start, 0.0)
        bent = self.bend * np.power(u, self.exponent) if self.bend else 0.0
        return np.asarray(self.start_force + self.slope_in * u + bent)


@dataclass(frozen=True)
class Side:
    """One direction of a curve, in magnitudes: gas and friction out, zero at zero speed.

    Evaluated from `segments`, or by interpolation between `speeds` and `forces` where `forces` is given (a curve
    from a click map, where the segments only describe it). Beyond `top_speed` the last slope goes on, the band widens.
    """

    segments: tuple[Segment, ...]
    knees: tuple[Knee, ...]
    speeds: FloatArray  #: grid for the band, from 0 [m/s]
    low: FloatArray  #: lower 95 % limit of force on the grid [N]
    high: FloatArray  #: upper 95 % limit [N]
    top_speed: float  #: highest speed the data hold [m/s]
    low_speed: float = 0.0  #: lowest speed the data hold [m/s]
    forces: FloatArray | None = None  #: tabulated forces on the grid [N]
    rms: float = float("nan")  #: residual, root mean square [N]
    samples: int = 0
    notes: tuple[str, ...] = ()
    #: damping and friction together on the grid, with lower and upper 95 % limits; None where nobody told them [N]
    total: tuple[FloatArray, FloatArray, FloatArray] | None = None

    def force(self, speed: ArrayLike) -> FloatArray:
        """Return the force at speeds, both as magnitudes. [N]"""
        s = np.abs(np.asarray(speed, dtype=float))
        if self.forces is not None:
            return _interpolate(s, self.speeds, self.forces)
        out = np.zeros_like(s)
        for segment in self.segments:
            out = np.where(s >= segment.start, segment.force(np.minimum(s, segment.end)), out)
        last = self.segments[-1]
        return np.asarray(out + self._end_slope() * np.maximum(s - last.end, 0.0))

    def _end_slope(self) -> float:
        last = self.segments[-1]
        u = last.end - last.start
        bent = last.bend * last.exponent * u ** (last.exponent - 1.0) if last.bend and u > 0 else 0.0
        return max(last.slope_in + bent, 0.0)

    def band(self, speed: ArrayLike) -> tuple[FloatArray, FloatArray]:
        """Return the lower and upper 95 % limits at speeds; wider in proportion to how far beyond the data. [N]"""
        return self.force_and_band(speed)[1:]

    def force_and_band(self, speed: ArrayLike) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Return the force at speeds with its limits, as `force` and `band` do one by one. [N]"""
        s = np.abs(np.asarray(speed, dtype=float))
        force = self.force(s)
        fastest = s.max(initial=0.0)
        inside = np.minimum(s, self.speeds[-1])
        at = force if fastest <= self.speeds[-1] else self.force(inside)
        down = at - np.interp(inside, self.speeds, self.low)
        up = np.interp(inside, self.speeds, self.high) - at
        if fastest <= self.top_speed:
            return force, force - down, force + up
        # Nobody measured beyond the top speed: half the force gained there is allowed either way.
        beyond = np.abs(force - self.force(np.minimum(s, self.top_speed))) * 0.5
        return force, force - down - beyond, force + up + beyond


def _interpolate(s: FloatArray, speeds: FloatArray, forces: FloatArray) -> FloatArray:
    slope = max((forces[-1] - forces[-2]) / (speeds[-1] - speeds[-2]), 0.0)
    return np.asarray(np.interp(s, speeds, forces) + slope * np.maximum(s - speeds[-1], 0.0))
