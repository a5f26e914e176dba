"""Static loads, load transfer, anti-squat and the height of the centre of gravity, in closed form.

The launch model must end where these formulas say; they also set up its parameters. Distances along the car are
positive, heights above the ground, suspension travel positive in compression.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from dynoan.analysis.checks import positive_number
from dynoan.errors import QuantityError
from dynoan.units import GRAVITY


@dataclass(frozen=True)
class Frame:
    """The masses of the car seen from the side: what load transfer depends on."""

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


def static_loads(frame: Frame, *, gravity: float = GRAVITY) -> tuple[float, float]:
    """Return the load on the front and on the rear axle of a car at rest. [N]

    Moments about the other axle; R. N. Jazar, *Vehicle Dynamics: Theory and Application*, ch. 2.
    """
    weight = frame.mass * gravity
    return weight * frame.to_rear / frame.wheelbase, weight * frame.to_front / frame.wheelbase


def centre_of_gravity(*, front: float, rear: float, wheelbase: float) -> tuple[float, float]:
    """Return the distances of the centre of gravity to the front and to the rear axle from what the axles carry. [m]

    `front` and `rear` in any one unit of load or mass; R. N. Jazar, *Vehicle Dynamics*, ch. 2.
    """
    total = positive_number("front", front) + positive_number("rear", rear)
    return wheelbase * rear / total, wheelbase * front / total


def load_transfer(frame: Frame, acceleration: float) -> float:
    """Return the load that acceleration moves from the front to the rear axle, m·a·h/L. [N]

    Holds in the steady state whatever the springs, dampers and links; moments about a contact patch.
    """
    return frame.mass * acceleration * frame.height / frame.wheelbase


def axle_loads(frame: Frame, acceleration: float, *, gravity: float = GRAVITY) -> tuple[float, float]:
    """Return the steady loads on the front and on the rear axle under acceleration [m/s²]. [N]"""
    front, rear = static_loads(frame, gravity=gravity)
    moved = load_transfer(frame, acceleration)
    return front - moved, rear + moved


def moved_across(*, mass: float, acceleration: float, height: float, base: float) -> float:
    """Return the load a mass at a height moves across a base (wheelbase or track), m·a·h/base. [N]"""
    return mass * acceleration * height / positive_number("base", base)


def grip_limited_acceleration(frame: Frame, grip: float, driven: str, *, gravity: float = GRAVITY) -> float:
    """Return the steady acceleration at which the driven wheels use all grip. [m/s²]

    R. N. Jazar, *Vehicle Dynamics*, ch. 2, eq. 2.117: load transfer takes from driven front wheels and gives to
    driven rear wheels. Never more than lifting the front wheels allows.

    Parameters
    ----------
    grip
        Friction coefficient of the driven tyres.
    driven
        "front", "rear" or "all".
    """
    if driven == "all":
        return grip * gravity
    if driven == "front":
        return gravity * grip * frame.to_rear / (frame.wheelbase + grip * frame.height)
    left = frame.wheelbase - grip * frame.height
    rear = gravity * grip * frame.to_front / left if left > 0 else math.inf
    return min(rear, wheelie_acceleration(frame, gravity=gravity))


def wheelie_acceleration(frame: Frame, *, gravity: float = GRAVITY) -> float:
    """Return the acceleration at which the front wheels leave the ground, g·b/h: moment about the rear patch. [m/s²]"""
    return gravity * frame.to_rear / frame.height


def least_time(speed: float, grip: float, *, gravity: float = GRAVITY) -> float:
    """Return the least time to a speed on four driven wheels, v/(μ·g); R. N. Jazar, ch. 2, eq. 2.120. [s]"""
    return speed / positive_number("grip", grip) / gravity


def antisquat_share(frame: Frame, slope: float, *, share: float = 1.0) -> float:
    """Return the anti-squat (1 is 100 %) of a driven axle from the slope of its side-view line.

    tan φ·L/h times the axle's share of the drive force: at 1 the links carry all of the load transfer and the
    suspension stays where it is (D. C. Barton, J. D. Fieldhouse, *Automotive Chassis Engineering*, 2018, p. 197).
    """
    return slope * frame.wheelbase / frame.height * share


def antisquat_slope(frame: Frame, antisquat: float, *, share: float = 1.0) -> float:
    """Return the slope of the side-view line from the anti-squat; the inverse of `antisquat_share`."""
    return antisquat * frame.height / frame.wheelbase / positive_number("share of drive force", share)


def instant_centre_slope(ahead: float, above: float) -> float:
    """Return the slope tan φ of the line from the driven contact patch to the side-view instant centre.

    For an axle whose driving torque is reacted in its links. Where the final drive sits on the body, give the height
    above the wheel centre.
    """
    if ahead == 0 or not math.isfinite(ahead) or not math.isfinite(above):
        raise QuantityError("instant_centre lies straight above the contact patch; its distance ahead must not be 0")
    return above / ahead


@dataclass(frozen=True)
class Squat:
    """Where the body stands under steady acceleration. Travel positive in compression."""

    rear: float  #: [m]
    front: float  #: [m]
    pitch: float  #: nose up [rad]


def steady_squat(
    frame: Frame, acceleration: float, *, front_rate: float, rear_rate: float, slope: float = 0.0
) -> Squat:
    """Return the steady squat of a rear-driven car on linear springs (axle rates). [N/m]

    ``k_r·d_r = m·a·(h/L − tan φ)``, ``k_f·d_f = −m·a·h/L``, pitch ``(d_r − d_f)/L``: Barton and Fieldhouse,
    *Automotive Chassis Engineering*, 2018, p. 197, eqs 3.63-3.66.
    """
    force = frame.mass * acceleration
    rear = force * (frame.height / frame.wheelbase - slope) / positive_number("rear_rate", rear_rate)
    front = -force * frame.height / frame.wheelbase / positive_number("front_rate", front_rate)
    return Squat(rear, front, (rear - front) / frame.wheelbase)


def no_pitch_slope(frame: Frame, *, front_rate: float, rear_rate: float) -> float:
    """Return the slope of the side-view line at which a rear-driven car does not pitch at all.

    ``(h/L)(1 + k_r/k_f)``: Barton and Fieldhouse, p. 197, eq. 3.69.
    """
    return frame.height / frame.wheelbase * (1 + rear_rate / front_rate)


def body_angle_gradient(*, mass: float, arm: float, stiffness: float, gravity: float = GRAVITY) -> float:
    """Return the body angle per acceleration, with the weight of the leaning body: m·d/(K − m·g·d). [rad/(m/s²)]

    Barton and Fieldhouse, p. 174, eq. 3.18 (there for roll; pitch has the same form).
    """
    left = stiffness - mass * gravity * arm
    if left <= 0:
        raise QuantityError("the springs cannot hold the body up: stiffness is not above mass·gravity·arm")
    return mass * arm / left


def raised_height(*, mass: float, wheelbase: float, raised: float, wheel_radius: float, front_gain: float) -> float:
    """Return the height of the centre of gravity from what the front scales gain with the rear wheels raised. [m]

    Moment equilibrium about the rear axle with the suspension locked: ``h = r + L·ΔW/(W·tan t)``, ``sin t = H/L``.
    """
    angle = math.asin(raised / wheelbase)
    return wheel_radius + wheelbase * front_gain / (mass * math.tan(angle))
