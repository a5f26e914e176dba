"""Cars no maker of the launch had in mind, each as a car of the program and as numbers for `whole_car`."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial

import numpy as np

from dynoan.model.car import Car, Corner
from dynoan.model.curve import Curve
from dynoan.model.links import Extras, Link, Links
from dynoan.model.side import Side
from tests.worlds.track.whole_car import Axle, Whole

ROD_ENDS = {"lower": ((0.0, 0.24), (0.52, 0.25)), "upper": ((0.03, 0.43), (0.43, 0.40))}


@dataclass(frozen=True)
class End:
    """One axle as a car file says it, a wheel."""

    mass: float
    unsprung: float = 33.0
    spring: float = 40e3
    ratios: tuple = (0.95, 0.92)  #: spring, shock travel per wheel travel
    tyre: float = 210e3
    tyre_damping: float = 120.0
    friction: float = 0.0
    travel: tuple = (0.075, 0.085)
    stop_rate: float = 150e3
    #: of the shock: slope below the knee in compression and rebound, speed of the knee, share of slope beyond
    damper: tuple = (3000.0, 4500.0, 0.12, 0.4)


@dataclass(frozen=True)
class Odd:
    """A car and how it is driven off."""

    name: str
    front: End
    rear: End
    wheelbase: float = 2.43
    height: float = 0.51
    inertia: float = 1250.0
    radius: float = 0.30
    rods: dict = field(default_factory=lambda: dict(ROD_ENDS))
    pivot: tuple | None = None
    on_body: bool = False
    grip: float = 1.05
    asked: float = 12.0  #: drive over mass after `rise` [m/s²]
    rise: float = 0.15
    torque: float | None = None  #: at the wheels, in the place of it [N·m]
    spin: float = 0.0  #: inertia of one driven wheel
    duration: float = 1.5


def damper(values, speed):
    low, rebound, knee, beyond = values
    size, slope = np.abs(speed), np.where(np.asarray(speed) > 0, low, rebound)
    return np.sign(speed) * slope * (np.minimum(size, knee) + beyond * np.maximum(size - knee, 0.0))


def at_wheel(end, speed):
    return 2 * end.ratios[1] * float(damper(end.damper, end.ratios[1] * speed))


def axle(end):
    rest = [((0.0, 0.0), (1.0, 2 * end.stop_rate))] * 2
    return Axle(
        2 * end.unsprung, 2 * end.spring * end.ratios[0] ** 2, 2 * end.tyre, partial(at_wheel, end),
        2 * end.tyre_damping, 2 * end.friction * end.ratios[1], *end.travel, *rest,
    )  # fmt: skip


def whole(odd):
    mass = 2 * (odd.front.mass + odd.rear.mass)
    return Whole(
        mass, 2 * odd.front.mass * odd.wheelbase / mass, odd.wheelbase, odd.height, odd.inertia, odd.radius,
        axle(odd.front), axle(odd.rear), tuple(odd.rods.values()) if odd.pivot is None else (), odd.pivot, odd.on_body,
        2 * odd.spin,
    )  # fmt: skip


def drive(odd):
    """What pushes at the contact patches, over time, load and speed."""
    of = whole(odd)
    full = odd.asked * of.mass
    if odd.torque is not None:
        full = odd.torque / odd.radius / (1 + of.spin / (of.mass * odd.radius**2))
    return lambda t, load, _speed: min(full * min(t / odd.rise, 1.0), odd.grip * load)


def curve(end):
    """The damper as a curve of the program."""
    knee, top = end.damper[2], 1.2
    speeds = np.unique(np.concatenate([[0.0, knee, top], np.linspace(0.0, top, 25)]))
    sides = []
    for sign in (1, -1):
        forces = np.abs(damper(end.damper, sign * speeds))
        sides.append(Side((), (), speeds, forces, forces, top, forces=forces))
    return Curve(*sides)


def corner(name, end):
    return Corner(
        name, end.mass, end.unsprung, end.spring, *end.ratios, tyre=end.tyre, bump_travel=end.travel[0],
        droop_travel=end.travel[1],
    )  # fmt: skip


def links(odd):
    if odd.pivot is not None:
        members = {"swing_arm": Link({"1": odd.pivot}, None, "1")}
    else:
        members = {name: Link({"1": body}, at, "1") for name, (at, body) in odd.rods.items()}
    return Links(members, "body" if odd.on_body else "links")


def as_car(odd):
    ends = {"front": odd.front, "rear": odd.rear}
    extras = Extras(
        wheel_inertia=odd.spin or None, tyre_damping={n: e.tyre_damping for n, e in ends.items()},
        friction={n: e.friction for n, e in ends.items()}, stop_rate={n: e.stop_rate for n, e in ends.items()},
    )  # fmt: skip
    corners = {n: corner(n, odd.front if n[0] == "f" else odd.rear) for n in ("fl", "fr", "rl", "rr")}
    return Car(
        odd.name, corners, odd.wheelbase, odd.height, "rear", odd.inertia, wheel_radius=odd.radius, links=links(odd),
        extras=extras, file=f"cars/{odd.name}.toml",
    )  # fmt: skip


KESTREL = End(265.0), End(244.0)
ODD = (
    Odd("front-heavy hatch", End(390.0, spring=30e3), End(220.0, spring=26e3), wheelbase=2.75, height=0.56,
        inertia=1900.0, radius=0.31),
    Odd("light buggy", End(85.0, 14.0, 9e3, (0.8, 0.75), 90e3, 60.0, 0.0, (0.12, 0.10), 60e3,
            (700.0, 1300.0, 0.2, 0.5)),
        End(140.0, 22.0, 16e3, (0.8, 0.75), 110e3, 60.0, 0.0, (0.12, 0.10), 60e3, (1100.0, 2200.0, 0.2, 0.5)),
        wheelbase=2.1, height=0.48, inertia=230.0, pivot=(0.62, 0.34), asked=9.0),
    Odd("soft springs on their stops", End(265.0, spring=11e3, travel=(0.03, 0.02), stop_rate=90e3, friction=40.0),
        End(244.0, spring=10e3, travel=(0.025, 0.03), stop_rate=90e3, friction=40.0)),
    Odd("leaning rear shocks", End(265.0), End(244.0, spring=75e3, ratios=(0.66, 0.66),
        damper=(5000.0, 8000.0, 0.08, 0.3))),
    Odd("stiff tyres", End(265.0, tyre=700e3, tyre_damping=40.0), End(244.0, tyre=700e3, tyre_damping=40.0)),
    Odd("high and over", *KESTREL, height=1.02, inertia=1500.0, grip=1.7, asked=20.0, duration=2.5),
    Odd("front wheels up and down again", *KESTREL, height=0.92, inertia=1500.0, grip=1.5, asked=10.0, rise=0.02),
    Odd("weak torque", *KESTREL, torque=700.0, spin=0.9, on_body=True),
    Odd("loose", *KESTREL, grip=0.55, asked=9.0, pivot=(0.9, 0.28)),
)  # fmt: skip
