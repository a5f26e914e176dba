"""What is possible and yet not of a shock on a dyno: each doubt in one line with both values."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.channels import (
    GAS_AGREES,
    GAS_ZEROED,
    LEAST_FORCE,
    MAGNITUDES,
    QUASI_STATIC,
    STROKE_AGREES,
    USUAL_FORCE,
    USUAL_VELOCITY,
)
from importers.stated import StatedFacts

_FAST, _SLOW = 0.7, 0.1  #: of the largest speed


def beyond_usual(velocity: float, force: float) -> tuple[str, ...]:
    """Return a warning for a largest speed [m/s] and for a largest force [N] that shocks on a dyno do not reach."""
    fast = f"velocity reaches {velocity:.3g} m/s, more than {USUAL_VELOCITY:g} m/s of a shock dyno; is its unit right?"
    strong = f"force reaches {force:.3g} N, more than the {USUAL_FORCE:g} N of a race shock: is its unit right?"
    return tuple(said for said, found in ((fast, velocity > USUAL_VELOCITY), (strong, force > USUAL_FORCE)) if found)


def below_usual(velocity: float, force: float) -> tuple[str, ...]:
    """Return a warning for a table's largest speed [m/s], and for a largest force [N], that no dyno run is made for."""
    slow = f"velocity reaches only {1e3 * velocity:.2g} mm/s, slower than a shock is tested: is its unit right?"
    weak = f"force reaches only {force:.2g} N, less than the friction of a shock: is its unit right?"
    return tuple(said for said, found in ((slow, velocity < QUASI_STATIC), (weak, force < LEAST_FORCE)) if found)


def magnitudes_of_force(force: FloatArray, velocity: FloatArray) -> tuple[str, ...]:
    """Return a warning where force never changes its sign and rises with speed both ways: its signs were lost."""
    f, v = force, velocity
    if not np.isfinite(force.sum() + velocity.sum()):
        there = np.isfinite(force) & np.isfinite(velocity)
        f, v = force[there], velocity[there]
    if not len(f) or f.min() < 0 < f.max():
        return ()
    speed, size = np.abs(v), np.abs(f)
    fast, slow = speed > _FAST * speed.max(), speed < _SLOW * speed.max()
    # Gas is stronger where the shock is in: rest is the mean of both ends of the stroke, as fast motion is between.
    low_end = np.gradient(v) > 0 if len(v) > 1 else slow
    parts = (size[fast & (v > 0)], size[fast & (v < 0)], size[slow & low_end], size[slow & ~low_end])
    if not all(map(len, parts)):
        return ()
    forth, back, *ends = (float(np.median(part)) for part in parts)
    rest = 0.5 * sum(ends)
    if min(forth, back) - rest <= MAGNITUDES * (max(forth, back) - rest):
        return ()
    return ("force has one sign and rises with speed in both directions: its signs are lost; export it with its signs",)


def stated_gas_force(facts: StatedFacts) -> float | None:
    """Return the force of the stated gas pressure on the stated rod; None where one is not stated. [N]"""
    if not facts.rod or not facts.gas_pressure or facts.gas_removed:
        return None
    return float(facts.gas_pressure * np.pi / 4 * facts.rod**2)


def against_pressure(facts: StatedFacts, rest: float | None) -> tuple[str, ...]:
    """Return a warning where the force at rest [N] is not that of the stated gas pressure on the stated rod."""
    wanted = stated_gas_force(facts)
    if rest is None or wanted is None or facts.rod is None or facts.gas_pressure is None:
        return ()
    if GAS_AGREES[0] <= abs(rest) / wanted <= GAS_AGREES[1]:
        return ()
    stated = f"{facts.gas_pressure / 1e5:.3g} bar on a rod of {1e3 * facts.rod:.3g} mm make {wanted:.0f} N"
    why = "the load cell was zeroed with the gas in, it seems" if abs(rest) < GAS_ZEROED * wanted else (
        "is the unit of force right?")  # fmt: skip
    return (f"the force at rest is {abs(rest):.0f} N, though {stated}: {why}",)


def against_stroke(facts: StatedFacts, displacement: FloatArray | None) -> tuple[str, ...]:
    """Return a warning where the travel [m] is neither the stated stroke [m] nor what it is each way."""
    stroke = facts.stroke
    if stroke is None or displacement is None or not np.isfinite(displacement).any():
        return ()
    travel = float(np.nanmax(displacement) - np.nanmin(displacement))
    if any(abs(travel / (times * stroke) - 1) < STROKE_AGREES for times in (1, 2)):
        return ()
    said = f"the displacement runs over {1e3 * travel:.3g} mm, though a stroke of {1e3 * stroke:.3g} mm is stated"
    may_be = "is that the shock's own? If not, " if facts.of_stroke is not None and facts.of_stroke.doubt > 1 else ""
    return (f"{said}: {may_be}is the unit or the scale of displacement right?",)
