"""The pushed corner as the car's file and its curves have it, and what would explain a swing that differs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from dynoan.analysis.bounce.assumptions import (
    AMPLITUDE,
    LEAST_FRICTION,
    MODEL_RATIO,
    MOST_FRICTION,
    TYRE_OVER_WHEEL,
    USUAL_FRICTION,
)
from dynoan.analysis.bounce.limits import SwingFit
from dynoan.analysis.bounce.predicting import MadeCorner
from dynoan.analysis.statistics import Z95
from dynoan.errors import DynoanError
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
    corners = tuple(made.corners[c] for c in where)
    return PushedCorners(made, corners, tuple(bench.corner_curve(made, c) for c in corners), axle_of(where[0]))


def widened(fit: SwingFit, spread: float) -> Banded:
    """Return a predicted ratio with limits from a relative standard deviation of its curves."""
    span = float(np.exp(Z95 * spread))
    return Banded(fit.ratio.value, fit.ratio.value / span, fit.ratio.value * span)


@dataclass(frozen=True)
class Explanation:
    """One thing that alone would explain the difference, and the value it would take."""

    what: str
    value: float  #: SI, or clicks as counted
    now: float
    kind: str  #: of quantity for showing; "" is a plain number


def explanations(bench: Workbench, pushed: PushedCorners, frequency: Banded, ratio: Banded) -> tuple[Explanation, ...]:
    """Return what would explain a frequency and a ratio that differ, both given as measured over predicted.

    Each alone: where the frequency differs, the spring and its ratio, or the mass; where the damping does, the shock's
    ratio and the clicks.
    """
    found: list[Explanation] = []
    corner = pushed.corners[0]
    stiffer = frequency.value**2
    if not frequency.low <= 1.0 <= frequency.high:
        found += [
            Explanation("spring rate", corner.spring * stiffer, corner.spring, "stiffness"),
            Explanation("spring ratio", corner.spring_ratio * stiffer**0.5, corner.spring_ratio, ""),
            Explanation("sprung mass", corner.sprung / stiffer, corner.sprung, "mass"),
        ]
    if not ratio.low <= 1.0 <= ratio.high:
        damped = ratio.value * frequency.value
        found.append(Explanation("shock ratio", corner.shock_ratio * damped**0.5, corner.shock_ratio, ""))
        found += _clicks(bench, pushed, damped)
    return tuple(found)


def _clicks(bench: Workbench, pushed: PushedCorners, damped: float) -> list[Explanation]:
    """Return, for each low-speed adjuster alone, the click whose damping comes nearest, where it comes near at all."""
    corner = pushed.corners[0]
    speeds = corner.shock_ratio * AMPLITUDE * 2 * np.pi * 1.7 * np.array([-1.0, -0.6, -0.3, 0.3, 0.6, 1.0])
    now = float(np.sum(np.abs(pushed.curves[0](speeds)) * np.abs(speeds)))
    found = []
    shock = bench.corner_shock(corner, corner.pack or "")
    for adjuster in shock.adjusters:
        if not adjuster.name.startswith(("ls", "c", "r")) or adjuster.name not in corner.clicks:
            continue
        tried = {}
        for click in range(adjuster.clicks + 1):
            try:
                curve = bench.corner_curve(pushed.car, corner, clicks={**corner.clicks, adjuster.name: click})
            except DynoanError:
                continue
            tried[click] = abs(float(np.sum(np.abs(curve(speeds)) * np.abs(speeds))) / now / damped - 1.0)
        best = min(tried, key=lambda c: tried[c], default=None)
        if best is not None and tried[best] < 0.1:
            found.append(Explanation(f"{adjuster.name} clicks", best, corner.clicks[adjuster.name], "clicks"))
    return found
