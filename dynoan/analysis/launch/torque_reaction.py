"""What a live axle's driveshaft does to its tyres: one gains what the other loses, as the axles share the roll moment.

The shaft's torque T turns the axle about the car's length against the body; springs and bars of both axles hold the
body in roll, so that the driven axle's tyres bear T times the other axle's share of the roll stiffness, over the track
(T. D. Gillespie, *Fundamentals of Vehicle Dynamics*, ch. 2, for stiff tyres). The tyres yield too: the other axle's
stand in series with its springs and bar, and the driven axle rolls on its own, which the springs between it and the
body feel. An axle with its final drive on the body has none of it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from dynoan.model.car import AXLES, Car


def roll_stiffness(wheel_rate: float, track: float, *, anti_roll: float = 0.0) -> float:
    """Return the roll stiffness of an axle: springs at the wheels half a track out, and a bar. [N·m/rad]

    Parameters
    ----------
    wheel_rate
        Of one wheel. [N/m]
    track
        [m]
    anti_roll
        Force of the bar at one wheel per its travel while the other goes the opposite way. [N/m]
    """
    return (wheel_rate + anti_roll) * track**2 / 2


def shaft_torque(force: float, radius: float, ratio: float) -> float:
    """Return the torque of the driveshaft that gives a drive force. [N·m]

    Parameters
    ----------
    force, radius, ratio
        At the tyres together [N], loaded radius [m], of the final drive [1].
    """
    return force * radius / ratio


def load_moved(torque: float, track: float, *, other: float, own: float, own_tyres: float = math.inf) -> float:
    """Return what one tyre of the driven axle gains and the other loses. [N]

    Parameters
    ----------
    torque
        Of the driveshaft. [N·m]
    track
        Of the driven axle. [m]
    other, own
        Roll stiffness of the other axle, its tyres in series, and of the driven one without them. [N·m/rad]
    own_tyres
        Roll stiffness of the driven axle's tyres. [N·m/rad]
    """
    return torque / track * other / (other + own * (1.0 + other / own_tyres))


@dataclass(frozen=True)
class Reaction:
    """What the driveshaft moves between the driven tyres, per drive force."""

    axle: str
    per_force: float  #: gained by one tyre, lost by the other


def reaction_of(car: Car, radius: float) -> Reaction | None:
    """Return what a car's driveshaft moves between its driven tyres; None where the file does not state what it takes.

    Parameters
    ----------
    car
        With both tracks and ``axle_ratio``, driven at one axle whose links hold the torque.
    radius
        Of the driven wheels. [m]
    """
    ratio = car.extras.axle_ratio
    if ratio is None or car.driven not in AXLES or set(car.track) != set(AXLES):
        return None
    if car.links is not None and car.links.torque == "body":
        return None
    stiffness, tyres = {}, {}
    for axle in AXLES:
        rate = sum(c.wheel_rate for c in car.axle(axle)) / 2
        stiffness[axle] = roll_stiffness(rate, car.track[axle], anti_roll=car.extras.anti_roll.get(axle, 0.0))
        stated = [c.tyre for c in car.axle(axle) if c.tyre is not None]
        tyres[axle] = roll_stiffness(sum(stated) / len(stated), car.track[axle]) if stated else math.inf
    other = "front" if car.driven == "rear" else "rear"
    torque, held = shaft_torque(1.0, radius, ratio), 1.0 / (1.0 / stiffness[other] + 1.0 / tyres[other])
    moved = load_moved(
        torque, car.track[car.driven], other=held, own=stiffness[car.driven], own_tyres=tyres[car.driven]
    )
    return Reaction(car.driven, moved)
