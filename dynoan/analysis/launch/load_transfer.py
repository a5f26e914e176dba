"""Where the weight lies and what the driven links hold, in closed form: what the half-car is set up from.

Distances along the car are positive, heights above the ground. What the half-car must end at (steady loads, squat) is
reckoned otherwise here and held against it by the tests.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from dynoan.analysis.checks import positive_number
from dynoan.errors import QuantityError


@dataclass(frozen=True)
class Frame:
    """The masses of the car seen from the side: what load transfer depends on.

    Raises
    ------
    QuantityError
        If a value is not a finite number above zero.
    """

    mass: float  #: whole car [kg]
    to_front: float  #: centre of gravity to front axle [m]
    to_rear: float  #: centre of gravity to rear axle [m]
    height: float  #: centre of gravity above the ground [m]

    def __post_init__(self) -> None:
        for name in ("mass", "to_front", "to_rear", "height"):
            positive_number(name, getattr(self, name))

    @property
    def wheelbase(self) -> float:
        """Front to rear axle. [m]"""
        return self.to_front + self.to_rear


class Arms(NamedTuple):
    """Distances of a centre of gravity along the car."""

    front: float  #: to the front axle [m]
    rear: float  #: to the rear axle [m]


def centre_of_gravity(*, front: float, rear: float, wheelbase: float) -> Arms:
    """Return how far the centre of gravity lies from the front and from the rear axle. [m]

    Moments about the axles; R. N. Jazar, *Vehicle Dynamics: Theory and Application*, ch. 2.

    Parameters
    ----------
    front, rear
        What the axles carry, in any one unit of load or mass.
    wheelbase
        [m]

    Raises
    ------
    QuantityError
        If an axle carries nothing.

    Examples
    --------
    >>> centre_of_gravity(front=530.0, rear=490.0, wheelbase=2.40)
    Arms(front=1.1529411764705881, rear=1.2470588235294118)
    """
    total = positive_number("front", front) + positive_number("rear", rear)
    return Arms(wheelbase * rear / total, wheelbase * front / total)


def antisquat_slope(frame: Frame, antisquat: float, *, share: float = 1.0) -> float:
    """Return the slope tan φ of the side-view line of a driven axle from its anti-squat. [1]

    At 1 (100 %) the links carry all of the load transfer, tan φ·L/h times the axle's share of the drive force, and the
    suspension stays where it is (D. C. Barton, J. D. Fieldhouse, *Automotive Chassis Engineering*, 2018, p. 197).

    Parameters
    ----------
    antisquat
        1 is 100 %.
    share
        Of the drive force at this axle, of 1.

    Raises
    ------
    QuantityError
        If the axle has no share of the drive force.
    """
    return antisquat * frame.height / frame.wheelbase / positive_number("share of drive force", share)


def instant_centre_slope(ahead: float, above: float) -> float:
    """Return the slope tan φ of the line from the driven contact patch to the side-view instant centre.

    For an axle whose driving torque is reacted in its links. Where the final drive sits on the body, give the height
    above the wheel centre.

    Parameters
    ----------
    ahead, above
        Of the contact patch to the instant centre; negative behind and below. [m]

    Raises
    ------
    QuantityError
        If the instant centre lies straight above the contact patch, or a value is not finite.
    """
    if ahead == 0 or not math.isfinite(ahead) or not math.isfinite(above):
        raise QuantityError(
            "instant_centre lies straight above the contact patch", hint="its distance ahead must not be 0"
        )
    return above / ahead
