"""How single numbers were got, in words with their own values: what a person can ask of each."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.model.shock import clicks_in_words
from dynoan.units import Shown, shown

if TYPE_CHECKING:
    from dynoan.analysis.corner.rates import CornerRates
    from dynoan.jobs.ratio import RatioAnswer
    from dynoan.jobs.ratio.figures import CornerFound

#: of each figure of a launch that the Car screen shows
LAUNCH = {
    "level_nose_rise_m": "How high the front of the body comes above where it stood, the road taken as level.",
    "nose_rise_m": "How high the front of the body comes above where it stood, over the road that the picture shows.",
    "rear_squat_m": "How far the rear of the body goes below where it stood, over the road that the picture shows.",
    "level_nose_rise_rate_m_s": "The fastest the front of the body rises at any moment, the road taken as level.",
    "level_rear_squat_m": "How far the rear of the body goes below where it stood, the road taken as level.",
    "level_rear_lift_m": "How far the rear of the body comes above where it stood, the road taken as level.",
    "front_wheel_height_m": "The highest the front tyres come off the ground; nothing where they stay on it.",
    "front_wheel_lift_s": "All the time in which the front tyres bear no load, summed.",
    "driven_load_least_n": "The least that the tyres of the driven axle bear at any moment.",
    "driven_load_rms_n": "How much the load on the driven axle's tyres moves about its steady course: the root of the "
    "mean square over the run.",
    "distance_m": "How far the car has come by the end of the run.",
}


def swing_rate(rates: CornerRates) -> float:
    """Return the rate at the wheel that the body swings on: the spring's, and the gas's where it is stated. [N/m]"""
    return float(rates.sprung * (2 * math.pi * rates.frequency) ** 2)


def ratio_words(found: CornerFound, direction: Direction, level: str, units: Shown) -> str:
    """Return how a corner's damping ratio was got, with its own values; nothing where no pack is on it."""
    if found.ratios is None or found.curve is None:
        return ""
    low = level == "low"
    speed = found.ratios.low_velocity if low else found.ratios.high_velocity
    side = found.ratios.side(direction)
    ratio = side.low if low else side.high
    force = float(found.curve.side(direction).force(speed))
    text = {k: shown(k, units).text for k in ("velocity", "force", "damping", "mass", "stiffness")}
    clicks = clicks_in_words(found.curve.clicks)
    critical = found.rates.critical_shock
    return (
        f"At {text['velocity'](speed)} of the shock in {direction}, {found.curve.pack} at {clicks} holds back "
        f"{text['force'](force)}: {text['damping'](force / speed)}. Critical damping at this shock is "
        f"{text['damping'](critical)}, for {text['mass'](found.rates.sprung)} on "
        f"{text['stiffness'](swing_rate(found.rates))} at the wheel. The one over the other is {ratio.value:.2f}, and "
        f"{ratio.low:.2f} to {ratio.high:.2f} with the limits of both."
    )


def ratios_words(found: RatioAnswer, units: Shown) -> dict[str, dict[str, dict[str, str]]]:
    """Return the same of all corners, by corner, direction and level."""
    return {
        name: {d: {at: ratio_words(one, d, at, units) for at in ("low", "high")} for d in DIRECTIONS}
        for name, one in found.corners.items() if one.ratios is not None
    }  # fmt: skip
