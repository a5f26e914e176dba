"""What may be asked of a car's damping ratios: at which velocities of the shock, in which motions, on which surface."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from dynoan.analysis.corner.ratio_measures import MOTIONS, SwingMotion
from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import quantity
from dynoan.model.car import Car

FASTEST = 10.0  #: what may be asked about at a shock [m/s]; common practice, no source


@dataclass(frozen=True)
class RatioQuestion:
    """Which car, at which velocities and motions. Velocities are of the shock."""

    car: str  #: a name in the library, or a car file's path
    low: float | None = None  #: [m/s]; None: the targets' own, else 0.05
    high: float | None = None  #: [m/s]; None: the targets' own, else 0.25
    #: what is asked of `SwingMotion`, by its names; the rest is usual in the car's units
    motion: Mapping[str, float] = field(default_factory=dict)
    surface: str | None = None  #: of the car's file: sigma follows from its roughness and the speed
    speed: float | None = None  #: of the car on that surface [m/s]

    @classmethod
    def asked(
        cls, car: str, *, low: float | str | None = None, high: float | str | None = None,
        body_amplitude: float | str | None = None, hop_amplitude: float | str | None = None,
        sigma: float | str | None = None, surface: str | None = None, speed: float | str | None = None,
    ) -> RatioQuestion:  # fmt: skip
        """Return the question from values as people give them: SI numbers, or text with a unit.

        Raises
        ------
        QuantityError
            If a value is no such quantity, or impossible.
        CallError
            If surface and speed do not stand together, or beside a sigma.
        """
        if (surface is None) != (speed is None) or (surface is not None and sigma is not None):
            raise CallError("surface and speed go together, and without sigma, which follows from them", need="surface")
        lengths = {"body_amplitude": body_amplitude, "hop_amplitude": hop_amplitude}
        motion = {name: _amplitude(value, name) for name, value in lengths.items() if value is not None}
        if sigma is not None:
            motion["sigma"] = shock_velocity(sigma, "sigma")
        return cls(
            car, None if low is None else shock_velocity(low, "low"),
            None if high is None else shock_velocity(high, "high"), motion, surface,
            None if speed is None else quantity(speed, "velocity", "speed"),
        )  # fmt: skip


def _amplitude(value: float | str, part: str) -> float:
    found = quantity(value, "length", part)
    if not 0 < found < math.inf:
        raise QuantityError(f"must be a finite length above zero, found {value}", part=part)
    return found


def shock_velocity(value: float | str, part: str) -> float:
    """Return a velocity of a shock from a number in m/s or text with a unit. [m/s]

    Raises
    ------
    QuantityError
        If it is neither, or not between zero and 10 m/s.
    """
    found = quantity(value, "velocity", part, bare=True)
    if not 0 < found < FASTEST:
        text = f"{found:g} m/s is no speed of a shock"
        raise QuantityError(text, hint="write it like '50 mm/s'", part=part)
    return found


def velocities(car: Car, axle: str, low: float | None, high: float | None) -> tuple[float, float]:
    """Return the low and the high velocity: as asked for, else of the axle's targets. [m/s]

    Raises
    ------
    CallError
        If the low is not below the high.
    """
    usual = car.targets_of(axle)
    slow = usual.low_velocity if low is None else low
    fast = usual.high_velocity if high is None else high
    if not slow < fast:
        raise CallError(
            f"the low velocity ({1e3 * slow:g} mm/s) must lie below the high one ({1e3 * fast:g} mm/s)",
            need="velocities",
        )
    return slow, fast


def motion_of(car: Car, question: RatioQuestion) -> SwingMotion:
    """Return the motions asked for, the others as usual, round in the car's units."""
    usual, asked = MOTIONS[car.units], question.motion
    return SwingMotion(
        asked.get("body_amplitude", usual.body_amplitude), asked.get("hop_amplitude", usual.hop_amplitude),
        asked.get("sigma", usual.sigma),
    )  # fmt: skip
