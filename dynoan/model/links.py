"""The side-view links of a driven axle, as points with holes, and what else a car's file may say for large angles."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from dynoan.errors import QuantityError

Point = tuple[float, float]  #: from the ground under the axle at rest: ahead and up [m]
MEMBERS = ("lower", "upper", "torque_arm", "swing_arm")
#: a stop: how far it is squeezed [m] and its force there [N], from (0, 0) on; beyond the last row its last slope holds
StopCurve = tuple[tuple[float, float], ...]
STOPS = ("bump_stop", "droop_stop")


@dataclass(frozen=True)
class Link:
    """One link: a rod from axle to body, or an arm fixed to the axle that ends at the body."""

    body: Mapping[str, Point]  #: its holes at the body, by name; without names "1", "2" and so on
    axle: Point | None = None  #: its end at the axle; an arm fixed to it has none
    hole: str = ""  #: the one in use

    @property
    def at_body(self) -> Point:
        """The hole in use. [m]"""
        return self.body[self.hole]


@dataclass(frozen=True)
class Links:
    """Two rods, a rod and a torque arm, or a swing arm (a ladder bar), seen from the side."""

    members: Mapping[str, Link]
    torque: Literal["links", "body"] = (
        "links"  #: what holds the driving torque: the links, or a final drive on the body
    )

    def with_hole(self, member: str, hole: str) -> Links:
        """Return the links with one of them in another hole.

        Raises
        ------
        QuantityError
            If there is no such link or hole.
        """
        if member not in self.members:
            raise QuantityError(
                f"there is no link {member}", where=f"links.holes.{member}", hint=f"there are {', '.join(self.members)}"
            )
        link = self.members[member]
        if hole not in link.body:
            raise QuantityError(
                f"there is no hole {hole}", where=f"links.holes.{member}", hint=f"there are {', '.join(link.body)}"
            )
        return replace(self, members={**self.members, member: replace(link, hole=hole)})


@dataclass(frozen=True)
class WheelieBar:
    """A stop behind the rear axle that keeps the car from going over."""

    behind: float  #: of the roller behind the rear axle [m]
    above: float  #: of the roller above the ground at rest [m]
    rate: float  #: [N/m]


@dataclass(frozen=True)
class Engine:
    """What turns the driven wheels: torque against engine speed, through one ratio."""

    speeds: tuple[float, ...]  #: ascending [rad/s]
    torques: tuple[float, ...]  #: at these [N·m]
    ratio: float = 1.0  #: turns of the engine a turn of the wheels
    inertia: float = 0.0  #: of engine and clutch, at the engine [kg·m²]


@dataclass(frozen=True)
class Extras:
    """What a launch at large angles takes besides; what is missing has a stated default or is left out, and said."""

    wheel_inertia: float | None = None  #: of one driven wheel with tyre and brake [kg·m²]
    bar: WheelieBar | None = None
    engine: Engine | None = None
    axle_ratio: float | None = None  #: of a live axle's final drive
    anti_roll: Mapping[str, float] = field(default_factory=dict)  #: by axle: force a wheel per its travel in roll [N/m]
    tyre_damping: Mapping[str, float] = field(default_factory=dict)  #: by axle, of one tyre [N·s/m]
    friction: Mapping[str, float] = field(default_factory=dict)  #: by axle, of one shock's seals, at the shock [N]
    stop_rate: Mapping[str, float] = field(default_factory=dict)  #: by axle, of one wheel's stops [N/m]
    #: by axle or, where it comes from a shock's file, by corner: one wheel's stop, at the wheel
    bump_stop: Mapping[str, StopCurve] = field(default_factory=dict)
    droop_stop: Mapping[str, StopCurve] = field(default_factory=dict)
    #: of the front axle where all wheels drive: share of the lift there that the links take of their drive [1]
    anti_lift: Mapping[str, float] = field(default_factory=dict)
