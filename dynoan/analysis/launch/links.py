"""What side-view links make of an axle's travel: its path, the instant centre, and the line of the driving force.

Over travel u the wheel centre moves ahead by ξ and the axle turns by φ (nose up), as the links' fixed lengths demand.
A driving force X at the tyre with its torque X·r does the virtual work X·(ξ' + r·φ') on the travel: minus that is the
slope tan φ of the line along which the body is pushed (from the contact patch to the instant centre where there is
one), also for parallel links, whose centre is nowhere. With the final drive on the body the torque stays out of the
links, and the line counts from the wheel centre: tan φ = -ξ'. Anti-squat is tan φ·L/h (D. C. Barton, J. D. Fieldhouse,
*Automotive Chassis Engineering*, 2018, p. 197).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

import numpy as np

from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.links import Links, Point

#: travel over which links are followed where the stops are not stated [m]; common practice, no source
REACH = 0.10
#: points over the travel, an odd number so that one is at rest
POINTS = 41
#: rounds of Newton's method, and how near the lengths must come [m] (numerics)
ROUNDS, EXACT = 25, 1e-11
#: an instant centre farther away than this many wheelbases is as good as nowhere [1]; judged
FAR = 20.0
#: an instant centre nearer to the axle than this makes the anti-squat of a guess, and it moves fast [m]; judged
NEAR = 0.30
#: travels kept in memory: most changes of a car (masses, springs, grip) leave its links alone (numerics)
FOLLOWED = 64
#: degrees of the polynomials that stand for path and turn in the equations of motion (numerics)
DEGREE = 5


@dataclass(frozen=True)
class LinkTravel:
    """What the links do at each travel; arrays of shape (n,)."""

    travel: FloatArray  #: of the wheel from rest, compression positive [m]
    ahead: FloatArray  #: ξ: how far the wheel centre is led ahead [m]
    turn: FloatArray  #: φ: how far the axle turns against the body, nose up [rad]
    slope: FloatArray  #: tan φ of the line of the driving force [1]
    ahead_slope: FloatArray  #: ξ' [1]
    turn_slope: FloatArray  #: φ' [rad/m]
    centre_ahead: FloatArray  #: instant centre ahead of the contact patch; infinite where the links are parallel [m]
    centre_up: FloatArray  #: above the ground [m]

    def at_rest(self, values: FloatArray) -> float:
        """Return one of the arrays at rest, in its own unit. [-]"""
        return float(np.interp(0.0, self.travel, values))

    def antisquat(self, *, wheelbase: float, height: float) -> FloatArray:
        """Return the anti-squat at each travel, shape (n,). [1]

        Parameters
        ----------
        wheelbase, height
            Of the car and of its centre of gravity. [m]
        """
        return np.asarray(self.slope * wheelbase / height)


def follow(links: Links, radius: float, *, bump: float = REACH, droop: float = REACH) -> LinkTravel:
    """Return what links do over the wheel's travel.

    Parameters
    ----------
    links
        Points from the ground under the axle at rest.
    radius
        Of the wheel, from its centre to the ground at rest. [m]
    bump, droop
        Travel to follow to either side. [m]

    Raises
    ------
    QuantityError
        If the links are no linkage: a length is missing, they bind before the end of the travel, or hold nothing.
    """
    return _led(_rules(links, radius), radius, links.torque == "links", bump, droop)


@lru_cache(maxsize=FOLLOWED)
def _led(rules: _Rules, radius: float, in_links: bool, bump: float, droop: float) -> LinkTravel:
    travel = np.concatenate([np.linspace(-droop, 0.0, POINTS // 2 + 1), np.linspace(0.0, bump, POINTS // 2 + 1)[1:]])
    poses = np.zeros((len(travel), 2))
    for way in (range(POINTS // 2, len(travel)), range(POINTS // 2, -1, -1)):
        pose = np.zeros(2)
        for i in way:
            pose = _solved(rules, float(travel[i]), pose)
            poses[i] = pose
    slopes = np.array([_slopes(rules, float(u), p) for u, p in zip(travel, poses, strict=True)])
    ahead, turn = slopes.T
    line = -(ahead + radius * turn) if in_links else -ahead
    with np.errstate(divide="ignore", invalid="ignore"):
        reach = np.where(np.abs(turn) > EXACT, -1.0 / turn, math.inf)
        up = radius + travel + np.where(np.abs(turn) > EXACT, ahead / turn, math.nan)
    found = (travel, poses[:, 0], poses[:, 1], line, ahead, turn, reach + poses[:, 0], up)
    for values in found:
        values.flags.writeable = False  # whoever asks again is given the same
    return LinkTravel(*found)


@dataclass(frozen=True)
class _Rod:
    """A point of the axle that keeps its distance from a point of the body; both from the wheel centre at rest."""

    axle: Point
    body: Point

    def off(self, u: float, ahead: float, turn: float) -> tuple[float, FloatArray]:
        x, z, dx, dz = _moved(self.axle, u, ahead, turn)
        rx, rz = x - self.body[0], z - self.body[1]
        length2 = (self.axle[0] - self.body[0]) ** 2 + (self.axle[1] - self.body[1]) ** 2
        return (rx * rx + rz * rz - length2) / 2, np.array([rx, rx * dx + rz * dz, rz])


@dataclass(frozen=True)
class _Held:
    """A point fixed to the axle that stays where it is in the body, in one direction: (1, 0) ahead, (0, 1) up."""

    point: Point
    along: Point

    def off(self, u: float, ahead: float, turn: float) -> tuple[float, FloatArray]:
        x, z, dx, dz = _moved(self.point, u, ahead, turn)
        a, b = self.along
        return a * (x - self.point[0]) + b * (z - self.point[1]), np.array([a, a * dx + b * dz, b])


_Rules: TypeAlias = "tuple[_Rod | _Held, _Rod | _Held]"


def _moved(point: Point, u: float, ahead: float, turn: float) -> tuple[float, float, float, float]:
    """Return a point of the axle in the body's axes, and its derivative over the turn."""
    c, s = math.cos(turn), math.sin(turn)
    return (ahead + c * point[0] - s * point[1], u + s * point[0] + c * point[1],
            -s * point[0] - c * point[1], c * point[0] - s * point[1])  # fmt: skip


def _rules(links: Links, radius: float) -> _Rules:
    def from_centre(point: Point) -> Point:
        return point[0], point[1] - radius

    found: list[_Rod | _Held] = []
    for name, link in links.members.items():
        at = from_centre(link.at_body)
        if name == "swing_arm":
            found += [_Held(at, (1.0, 0.0)), _Held(at, (0.0, 1.0))]
        elif name == "torque_arm":
            found.append(_Held(at, (0.0, 1.0)))
        elif link.axle is None:
            raise QuantityError("a rod needs its end at the axle too", where=f"links.{name}")
        else:
            found.append(_Rod(from_centre(link.axle), at))
    if len(found) != 2:
        raise QuantityError("give lower and upper, or lower and torque_arm, or swing_arm alone", where="links")
    return found[0], found[1]


def _solved(rules: _Rules, u: float, guess: FloatArray) -> FloatArray:
    pose = guess.copy()
    for _ in range(ROUNDS):
        rows = [rule.off(u, float(pose[0]), float(pose[1])) for rule in rules]
        off = np.array([row[0] for row in rows])
        jacobian = np.array([row[1][:2] for row in rows])
        if abs(np.linalg.det(jacobian)) < EXACT:
            break
        step = np.linalg.solve(jacobian, off)
        pose = pose - step
        if np.max(np.abs(step)) < EXACT:
            return np.asarray(pose)
    raise QuantityError(
        f"they bind at {1000.0 * u:.0f} mm of wheel travel", where="links", hint="check their points and lengths"
    )


def _slopes(rules: _Rules, u: float, pose: FloatArray) -> FloatArray:
    """Return ξ' and φ' at a pose: the lengths' derivatives over travel must vanish."""
    rows = np.array([rule.off(u, float(pose[0]), float(pose[1]))[1] for rule in rules])
    return np.asarray(np.linalg.solve(rows[:, :2], -rows[:, 2]))


def polynomials(found: LinkTravel) -> tuple[FloatArray, FloatArray]:
    """Return polynomials over travel for ξ and φ, lowest power first, both zero at rest. [m, rad over m]

    Parameters
    ----------
    found
        From `follow`. The fit is by least squares and misses by less than the links' play.
    """
    powers = found.travel[:, None] ** np.arange(1, DEGREE + 1)
    scale = np.max(np.abs(powers), axis=0)
    both = [np.linalg.lstsq(powers / scale, values, rcond=None)[0] / scale for values in (found.ahead, found.turn)]
    return np.concatenate([[0.0], both[0]]), np.concatenate([[0.0], both[1]])


def runs_away(found: LinkTravel, wheelbase: float) -> bool:
    """Return whether the instant centre comes too near or changes sides within the travel."""
    reach = found.centre_ahead[np.abs(found.centre_ahead) < FAR * wheelbase]
    near = bool(len(reach)) and float(np.min(np.abs(reach))) < NEAR
    sides = bool(len(reach)) and bool(np.any(reach > 0) and np.any(reach < 0))
    return near or sides
