"""The motion of rows of arrays from rest: stepped, watched and kept."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.launch.large.layout import PITCH, REAR, STATES
from dynoan.model.arrays import BoolArray, FloatArray
from tests.oracles.large_arrays import Stepper


@dataclass(frozen=True)
class Motion:
    """The motion of m rows over n times."""

    time: FloatArray  #: shape (n,) [s]
    states: FloatArray  #: shape (STATES, m, n)
    loads: FloatArray  #: of both axles' tyres, shape (2, m, n) [N]
    drive: FloatArray  #: along the ground at both axles, shape (2, m, n) [N]
    dampers: FloatArray  #: of both axles, shape (2, m, n) [N]
    wheels: FloatArray  #: heights of the wheel centres above rest, shape (2, m, n) [m]
    wheel_rates: FloatArray  #: [m/s]
    roads: FloatArray  #: height under the wheels, shape (2, m, n) [m]
    bar: FloatArray  #: on the wheelie bar, shape (m, n) [N]
    slip: FloatArray  #: of both axles, shape (2, m, n); 0 where drive is a force [1]
    over: FloatArray  #: when a row went over, NaN where it did not, shape (m,) [s]
    energy: FloatArray  #: held, shape (m, n) [J]


def run_large(stepper: Stepper, rows: int, step: float, steps: int, start: FloatArray | None = None) -> Motion:
    """Return the motion of rows from rest, or from states of their own.

    A row that goes over, its centre of gravity past the rear wheels, stands still from then on.

    Parameters
    ----------
    stepper
        The right-hand side.
    rows
        How many settings, bands and roads.
    step
        [s]
    steps
        How many.
    start
        Shape (STATES,), in the place of rest. [SI]
    """
    y = stepper.start(rows) if start is None else np.repeat(start[:, None], rows, axis=1)
    kept: dict[str, FloatArray] = {
        name: np.empty((2, rows, steps + 1))
        for name in ("load", "force", "damper", "height", "up", "road", "slip")
    }  # fmt: skip
    states, bar, energy = np.empty((STATES, rows, steps + 1)), np.empty((rows, steps + 1)), np.empty((rows, steps + 1))
    over = np.full(rows, np.nan)
    alive: BoolArray = np.ones(rows, dtype=bool)
    for i in range(steps + 1):
        k1, acts = stepper.rates(y, 2 * i)
        states[:, :, i], bar[:, i], energy[:, i] = y, acts["bar"], stepper.energy(y, acts)
        for n, act in enumerate(acts["axles"]):
            for name in ("load", "force", "height", "up", "road", "slip"):
                kept[name][n, :, i] = act[name]
            kept["damper"][n, :, i] = acts["dampers"][n]
        if i == steps:
            break
        k2, _ = stepper.rates(y + 0.5 * step * k1, 2 * i + 1)
        k3, _ = stepper.rates(y + 0.5 * step * k2, 2 * i + 1)
        k4, _ = stepper.rates(y + step * k3, 2 * i + 2)
        y = y + step / 6.0 * (k1 + 2.0 * (k2 + k3) + k4) * alive
        gone = alive & (y[PITCH] > 0) & (_reach(stepper, y) <= 0)
        if np.any(gone):
            over[gone] = (i + 1) * step
            alive = alive & ~gone
    return Motion(np.asarray(np.arange(steps + 1) * step), states, kept["load"], kept["force"], kept["damper"],
                  kept["height"],
                  kept["up"], kept["road"], bar, kept["slip"], over, energy)  # fmt: skip


def _reach(stepper: Stepper, y: FloatArray) -> FloatArray:
    """Return how far the body's centre of gravity lies ahead of the rear wheels. [m]"""
    along, above = stepper.places[1], y[REAR] - stepper.depth
    return np.asarray(-(np.cos(y[PITCH]) * along - np.sin(y[PITCH]) * above))
