"""The pushed corner as the car's file and its curves have it, and what would explain a swing that differs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from dynoan.analysis.bounce.assumptions import (
    AMPLITUDE,
    LEAST_FRICTION,
    MISREADS,
    MODEL_RATIO,
    MOST_FRICTION,
    TYRE_OVER_WHEEL,
    USUAL_FRICTION,
)
from dynoan.analysis.bounce.limits import SwingFit
from dynoan.analysis.bounce.predicting import MadeCorner
from dynoan.analysis.gas import with_gas
from dynoan.analysis.statistics import Z95
from dynoan.jobs.car_spread import car_ends
from dynoan.model.arrays import FloatArray
from dynoan.model.banded import Banded
from dynoan.model.car import Car, Corner, axle_of
from dynoan.model.curve import Curve

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

_LITTLE = 1e-3  #: friction is never less: what turns it around divides by it [N]


@dataclass(frozen=True)
class PushedCorners:
    """What was pushed, as the library knows it."""

    car: Car
    corners: tuple[Corner, ...]
    curves: tuple[Curve, ...]
    axle: str = "front"

    @property
    def shock_ratio(self) -> float:
        """Mean shock travel per wheel travel. [1]"""
        return float(np.mean([c.shock_ratio for c in self.corners]))

    def made(self, friction: float | None = None) -> MadeCorner:
        """Return the mean of the corners with their curves, at the wheel; `friction` there [N] or the likeliest."""
        rate = float(np.mean([c.rate for c in self.corners]))
        tyres = [c.tyre for c in self.corners if c.tyre is not None]

        def damping(v: FloatArray) -> FloatArray:
            each = [k.shock_ratio * u(k.shock_ratio * v) for k, u in zip(self.corners, self.curves, strict=True)]
            return np.asarray(np.mean(each, axis=0))

        return MadeCorner(
            float(np.mean([c.sprung for c in self.corners])), float(np.mean([c.unsprung for c in self.corners])), rate,
            float(np.mean(tyres)) if tyres else TYRE_OVER_WHEEL * rate, damping,
            self.frictions[0] if friction is None else friction, bool(tyres),
        )  # fmt: skip

    @property
    def friction(self) -> float | None:
        """Friction of the shocks at the wheel, as the dyno has it; None where a test cannot tell it. [N]"""
        pairs = zip(self.corners, self.curves, strict=True)
        mean = float(np.mean([k.shock_ratio * u.friction for k, u in pairs]))
        return max(mean, _LITTLE) if np.isfinite(mean) else None

    @property
    def stated_friction(self) -> float | None:
        """Friction of one shock as the car's file has it; None where it does not. [N]"""
        return self.car.extras.friction.get(self.axle)

    @property
    def frictions(self) -> tuple[float, ...]:
        """What friction the shocks may have at the wheel, the likeliest first; one where it is known. [N]"""
        if self.friction is not None:
            return (self.friction,)
        if self.stated_friction is not None:
            return (max(self.shock_ratio * self.stated_friction, _LITTLE),)
        return tuple(self.shock_ratio * f for f in (USUAL_FRICTION, LEAST_FRICTION, MOST_FRICTION))

    def spread(self, frequency: float) -> float:
        """Return the relative standard deviation of the curves' damping at the speeds of the swing. [1]"""
        speeds = self.shock_ratio * AMPLITUDE * 2 * np.pi * frequency * np.array([-1.0, -0.5, 0.5, 1.0])
        each = []
        for curve in self.curves:
            low, high = curve.band(speeds)
            each.append(float(np.mean((high - low) / (2 * Z95 * np.maximum(np.abs(curve(speeds)), 1e-9)))))
        return float(np.hypot(np.mean(each), MODEL_RATIO))


def pushed_corners(bench: Workbench, car: str, where: tuple[str, ...]) -> PushedCorners:
    """Return the corners that were pushed with the curves of what is on them.

    Raises
    ------
    LookupFault, QuantityError
        If the library knows no such car or pack, or the car's file lacks something.
    """
    made = bench.library.car(car)
    curves = {name: bench.corner_curve(made, made.corners[name], pieces=False) for name in where}
    made = with_gas(made, curves)
    return PushedCorners(made, tuple(made.corners[c] for c in where), tuple(curves.values()), axle_of(where[0]))


def car_spread(pushed: PushedCorners) -> tuple[float, float]:
    """Return how unsure free frequency and ratio are of the car's own ±, as logarithms, 95 %. [1]"""
    base = np.log(pushed.made().free_and_ratio)
    moves = []
    for key, ends in car_ends(pushed.car).items():
        if key.rpartition(".")[0] not in (pushed.axle, *(c.name for c in pushed.corners)):
            continue
        off = [replace(pushed, corners=tuple(end.corners[c.name] for c in pushed.corners)) for end in ends]
        moves.append(np.max([np.abs(np.log(one.made().free_and_ratio) - base) for one in off], axis=0))
    both = np.linalg.norm(moves, axis=0) if moves else np.zeros(2)
    return float(both[0]), float(both[1])


def allowed(fit: SwingFit, pushed: PushedCorners, frictions: int = 1) -> SwingFit:
    """Return a prediction with limits that hold curves, the car's own ±, and how far such a log is misread.

    One simulated log is misread by its law and by its own luck: only what the law does is in the real one too, so the
    prediction lies between the curve's own ratio and what that log is read as.

    Parameters
    ----------
    fit
        What the simulated log is read as; where several frictions were tried, its limits are round those of all.
    pushed
        What was simulated.
    frictions
        How many were tried.
    """
    free, ratio = car_spread(pushed)
    misread = np.abs(np.log(np.array([fit.free.value, fit.ratio.value]) / pushed.made().free_and_ratio))
    free = float(np.hypot(free, misread[0]))
    luck = np.log(fit.ratio.high / fit.ratio.low) / (2 * Z95)
    believed = MISREADS**2 / (MISREADS**2 + luck**2)
    spread = float(np.linalg.norm([
        Z95 * pushed.spread(fit.frequency.value), ratio, misread[1], Z95 * luck * np.sqrt(believed),
    ]))  # fmt: skip
    if frictions > 1:
        read = fit.ratio
    else:
        own = pushed.made().free_and_ratio[1]
        value = float(own * (fit.ratio.value / own) ** believed)
        read = Banded(value, value, value)
    return replace(
        fit, ratio=_widened(read, spread), free=_widened(fit.free, free),
        frequency=_widened(fit.frequency, free),
    )  # fmt: skip


def _widened(value: Banded, spread: float) -> Banded:
    """Return a figure whose limits hold what they do and a spread of its logarithm (95 %), the squares added."""
    ends = [
        float(np.hypot(np.log(far / near), spread))
        for near, far in ((value.low, value.value), (value.value, value.high))
    ]
    return Banded(value.value, value.value / float(np.exp(ends[0])), value.value * float(np.exp(ends[1])))
