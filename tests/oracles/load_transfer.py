"""Steady load transfer, squat, lean and the weighing of a centre of gravity, in closed form.

No command shows them: the launch integrates the half-car instead, and must end where these say. Published values are
held against them, and they against the half-car.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from dynoan.analysis.checks import positive_number
from dynoan.analysis.launch.load_transfer import Frame
from dynoan.analysis.launch.model import HalfCar
from dynoan.errors import QuantityError
from dynoan.units import GRAVITY


def static_loads(frame: Frame, *, gravity: float = GRAVITY) -> tuple[float, float]:
    """Return the load on the front and on the rear axle of a car at rest. [N]

    Moments about the other axle; R. N. Jazar, *Vehicle Dynamics: Theory and Application*, ch. 2.
    """
    weight = frame.mass * gravity
    return weight * frame.to_rear / frame.wheelbase, weight * frame.to_front / frame.wheelbase


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


def least_time(speed: float, grip: float, *, gravity: float = GRAVITY) -> float:
    """Return the least time to a speed on four driven wheels, v/(μ·g); R. N. Jazar, ch. 2, eq. 2.120. [s]"""
    return speed / positive_number("grip", grip) / gravity


def antisquat_share(frame: Frame, slope: float, *, share: float = 1.0) -> float:
    """Return the anti-squat (1 is 100 %) of a driven axle from the slope of its side-view line.

    tan φ·L/h times the axle's share of the drive force: at 1 the links carry all of the load transfer and the
    suspension stays where it is (D. C. Barton, J. D. Fieldhouse, *Automotive Chassis Engineering*, 2018, p. 197).
    """
    return slope * frame.wheelbase / frame.height * share


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


def antisquat(half: HalfCar) -> float:
    """Return the anti-squat of the driven axle (the rear where all drive), 1 is 100 %."""
    axle = half.front if half.driven == "front" else half.rear
    sign = -1.0 if half.driven == "front" else 1.0
    return sign * antisquat_share(half.frame, axle.slope, share=axle.share)


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
    gravity
        [m/s²]
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
