"""Damper curves of both sides of an axle, at the wheel, as sums of hinges for the compiled car.

A hinge sum is ``Σ gain·max(0, v − knot)``: piecewise linear, and free of branches. The knots sit where the curve bends,
with density proportional to the square root of the second derivative, which is what makes the largest error of a
piecewise-linear curve smallest (C. de Boor, *A Practical Guide to Splines*, on free knots).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.launch.assumptions import CAP, CAPPING, CURVES_AT_ONCE, EVEN, FLOOR, GRID, NO_FORCE, PULL, SLOWEST
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.curve import DIRECTIONS, Curve, Direction

HINGES = 8  #: of one direction of an axle
LOW, NOMINAL, HIGH = range(3)  #: rows of a side with its band


@dataclass(frozen=True)
class Hinges:
    """Hinge sums of one direction of one axle for m settings: knots and gains at the wheel, shape (m, HINGES)."""

    knots: FloatArray  #: wheel speed [m/s]
    gains: FloatArray  #: [N·s/m]

    def force(self, speed: FloatArray) -> FloatArray:
        """Return the force at wheel speeds (magnitudes), shape (m, len(speed)). [N]"""
        over = np.maximum(speed[None, :, None] - self.knots[:, None, :], 0.0)
        return np.asarray(np.einsum("msk,mk->ms", over, self.gains))

    def take(self, index: IntArray | Sequence[int]) -> Hinges:
        """Return the settings at an index."""
        at = np.asarray(index, dtype=int)
        return Hinges(self.knots[at], self.gains[at])


@dataclass(frozen=True)
class AxleDamping:
    """Damping of both shocks of an axle at the wheel: forces over wheel speed, with their band. Magnitudes."""

    speeds: FloatArray  #: wheel speed, from 0, shape (g,) [m/s]
    compression: FloatArray  #: low, nominal, high, shape (3, g) [N]
    rebound: FloatArray  #: likewise
    ratio: float  #: mean shock travel per wheel travel
    tested: Mapping[Direction, float]  #: highest tested speed at the shock, magnitude [m/s]

    def hinges(self, direction: Direction) -> Hinges:
        """Return the hinge sums of one direction: `LOW`, `NOMINAL` and `HIGH`."""
        return hinge_sums(self.speeds, self.compression if direction == "compression" else self.rebound)


def speed_grid(top: float) -> FloatArray:
    """Return wheel speeds from 0 to `top` [m/s], dense where slow."""
    return np.concatenate([[0.0], np.geomspace(min(SLOWEST, top / 10), top, GRID - 1)])


def axle_damping(curves: Sequence[Curve], ratios: Sequence[float]) -> AxleDamping:
    """Return the damping of an axle at the wheel.

    At the wheel a shock gives ``R·F(R·v)``; two shocks add. Beyond the tested speeds the curve's own rule holds.

    Parameters
    ----------
    curves
        Of the shocks of the axle.
    ratios
        Shock travel per wheel travel, of each.
    """
    top = max(max(c.compression.top_speed, c.rebound.top_speed) / r for c, r in zip(curves, ratios, strict=True))
    grid = speed_grid(top)
    sides = {d: sum(_at_wheel(c, d, r, grid) for c, r in zip(curves, ratios, strict=True)) for d in DIRECTIONS}
    tested = {d: min(c.side(d).top_speed for c in curves) for d in DIRECTIONS}
    return AxleDamping(grid, np.asarray(sides["compression"]), np.asarray(sides["rebound"]),
                       float(np.mean(ratios)), tested)  # fmt: skip


def _at_wheel(curve: Curve, direction: Direction, ratio: float, grid: FloatArray) -> FloatArray:
    side = curve.side(direction)
    low, high = side.band(ratio * grid)
    forces = np.stack([np.maximum(low, 0.0), side.force(ratio * grid), high]) * ratio
    forces[:, 0] = 0.0
    return np.asarray(forces)


def hinge_sums(speeds: FloatArray, forces: FloatArray) -> Hinges:
    """Return hinge sums through curves, one a row of `forces`.

    Parameters
    ----------
    speeds
        Ascending from 0, shape (g,). [m/s]
    forces
        0 at 0 speed, shape (m, g). [N]

    Notes
    -----
    The density of knots is taken in log speed against force plus `FLOOR` of the top force, so that slow speeds, where a
    car spends most of its time, are not sacrificed to fast ones. Beyond the last speed the last slope goes on.
    """
    at = _knots(speeds, forces)
    ends = np.concatenate([at, np.full((len(at), 1), speeds[-1])], axis=1)
    heights = np.concatenate(
        [_heights(speeds, forces[i : i + CURVES_AT_ONCE], ends[i : i + CURVES_AT_ONCE]) for i in _chunks(forces)]
    )
    slopes = np.diff(heights, axis=1) / np.diff(ends, axis=1)
    gains = np.concatenate([slopes[:, :1], np.diff(slopes, axis=1)], axis=1)
    return Hinges(at, gains)


def _chunks(forces: FloatArray) -> range:
    return range(0, len(forces), CURVES_AT_ONCE)


def _heights(speeds: FloatArray, forces: FloatArray, ends: FloatArray) -> FloatArray:
    """Return the values at the knots and at the top that lie closest to the curves, 0 at 0; shape (m, HINGES + 1).

    Weighted least squares: values on the curve would make every chord of a bend lie to one side of it.
    """
    hats = _hats(speeds, ends)[:, :, 1:]
    weight = np.sqrt(np.gradient(speeds)) / (forces + FLOOR * forces[:, -1:] + NO_FORCE)
    a = hats * weight[:, :, None]
    y = forces * weight
    on_curve = np.stack([np.interp(x, speeds, f) for x, f in zip(ends[:, 1:], forces, strict=True)])
    normal = np.einsum("mgk,mgl->mkl", a, a)
    right = np.einsum("mgk,mg->mk", a, y)
    pull = PULL * np.trace(normal, axis1=1, axis2=2) / HINGES
    normal = normal + pull[:, None, None] * np.eye(HINGES)
    right = right + pull[:, None] * on_curve
    inner = np.linalg.solve(normal, right[:, :, None])[:, :, 0]
    return np.concatenate([np.zeros((len(ends), 1)), inner], axis=1)


def _hats(speeds: FloatArray, ends: FloatArray) -> FloatArray:
    """Return the hat functions of the knots at the speeds, shape (m, g, HINGES + 1)."""
    width = np.diff(ends, axis=1)
    up = (speeds[None, :, None] - ends[:, None, :-1]) / width[:, None, :]
    rise = np.clip(up, 0.0, 1.0)
    ones = np.ones((len(ends), len(speeds), 1))
    return np.asarray(np.concatenate([ones, rise], axis=2) - np.concatenate([rise, 0 * ones], axis=2))


def _knots(speeds: FloatArray, forces: FloatArray) -> FloatArray:
    """Return HINGES knots a curve, the first at 0, shape (m, HINGES)."""
    slope = np.diff(forces, axis=1) / np.diff(speeds)
    width = (speeds[2:] - speeds[:-2]) / 2
    bend = np.abs(np.diff(slope, axis=1)) / width
    scale = forces[:, 1:-1] + FLOOR * forces[:, -1:] + NO_FORCE
    density = np.sqrt(bend / scale) + EVEN / speeds[-1]
    weight = density * width
    for _ in range(CAPPING):
        weight = np.minimum(weight, weight.sum(axis=1, keepdims=True) / (CAP * HINGES))
    mass = np.cumsum(weight, axis=1)
    share = np.concatenate([np.zeros((len(mass), 1)), mass / mass[:, -1:]], axis=1)
    grid = np.concatenate([[0.0], speeds[1:-1] + np.diff(speeds)[1:] / 2])
    wanted = np.arange(HINGES) / HINGES
    out = np.stack([np.interp(wanted, row, grid) for row in share])
    return np.asarray(out)
