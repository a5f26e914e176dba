"""The car: corners, targets, surfaces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from dynoan.model.links import Extras, Links
from dynoan.units import INCH, Shown

CORNERS = ("fl", "fr", "rl", "rr")
AXLES = ("front", "rear")
CORNER_NAMES = {"fl": "front left", "fr": "front right", "rl": "rear left", "rr": "rear right"}
Driven = Literal["front", "rear", "all"]
#: speeds at the shock at which a damping ratio is called low and high [m/s]; common practice, no source. They decide
#: where targets stand and ratios are shown for a car whose file names no others.
LOW_VELOCITY, HIGH_VELOCITY = 0.05, 0.25
#: speeds at the shock where ratios are told and wanted if a car's file names none, by the units of who reads: round
#: in them, slow then fast [m/s]; common practice, no source
SPEEDS: Mapping[Shown, tuple[float, float]] = {"metric": (LOW_VELOCITY, HIGH_VELOCITY), "us": (2 * INCH, 10 * INCH)}


def axle_of(corner: str) -> str:
    """Return the axle ("front" or "rear") of a corner ("fl", "fr", "rl", "rr")."""
    return "front" if corner[0] == "f" else "rear"


@dataclass(frozen=True)
class Corner:
    """One wheel's share of the car. Motion ratios are spring or shock travel per wheel travel."""

    name: str
    mass: float  #: what the scale under this wheel shows [kg]
    unsprung: float  #: [kg]
    spring: float  #: spring rate at the spring [N/m]
    spring_ratio: float
    shock_ratio: float
    tyre: float | None = None  #: tyre rate [N/m]
    bump_travel: float | None = None  #: wheel travel from static to the bump stop [m]
    droop_travel: float | None = None  #: wheel travel from static to the droop stop [m]
    gas_rate: float | None = None  #: of the shock's gas, at the shock [N/m]
    shock: str | None = None
    pack: str | None = None
    clicks: Mapping[str, int] = field(default_factory=dict)  #: as the shock's file counts them

    @property
    def sprung(self) -> float:
        """Sprung mass on this corner. [kg]"""
        return self.mass - self.unsprung

    @property
    def wheel_rate(self) -> float:
        """Spring rate at the wheel. [N/m]"""
        return self.spring * self.spring_ratio**2

    @property
    def rate(self) -> float:
        """Rate at the wheel of spring and, where stated, the shock's gas. [N/m]"""
        return self.wheel_rate + (self.gas_rate or 0.0) * self.shock_ratio**2


@dataclass(frozen=True)
class Target:
    """Wanted damping ratios of one direction; None where the team leaves one open."""

    low: float | None = None
    high: float | None = None
    #: ratio against speed, pairs of (speed at the shock [m/s], ratio), where a whole curve is wanted
    curve: tuple[tuple[float, float], ...] = ()
    weight: float = 1.0  #: how much this direction counts beside the other


@dataclass(frozen=True)
class Targets:
    """Wanted damping ratios of one axle."""

    compression: Target = Target()
    rebound: Target = Target()
    low_velocity: float = LOW_VELOCITY  #: speed at the shock [m/s]
    high_velocity: float = HIGH_VELOCITY  #: speed at the shock [m/s]


#: roughness of a road by class: geometric means of Gd(n0) at 0.1 cycle/m [m³]; ISO 8608. Several public programs have a
#: wrong table.
ROAD_CLASSES = {letter: 16e-6 * 4.0**i for i, letter in enumerate("ABCDEFGH")}


@dataclass(frozen=True)
class Surface:
    """What the car stands on."""

    name: str
    grip: float  #: peak friction coefficient
    roughness: float = 0.0  #: ISO 8608 Gd(n0) at 0.1 cycle/m [m³]
    sliding_grip: float | None = None  #: when the wheel spins, at most the peak
    slip_stiffness: float | None = None  #: of the tyre on it, over its load
    #: by which power of its load a tyre's grip falls, the grip being that under the load at rest
    load_sensitivity: float | None = None


@dataclass(frozen=True)
class Car:
    """The whole car. What a command needs and the file lacks is None here, and an error that names the key there."""

    name: str
    corners: Mapping[str, Corner]  #: by "fl", "fr", "rl", "rr"
    wheelbase: float | None = None  #: [m]
    cg_height: float | None = None  #: [m]
    driven: Driven | None = None
    pitch_inertia: float | None = None  #: [kg m²]
    antisquat: float | None = None  #: share of 1, of the driven axle
    instant_centre: tuple[float, float] | None = None  #: ahead of the contact patch, above the ground [m]
    targets: Mapping[str, Targets] = field(default_factory=dict)  #: by axle
    surfaces: Mapping[str, Surface] = field(default_factory=dict)
    track: Mapping[str, float] = field(default_factory=dict)  #: between the wheels of an axle, by axle [m]
    roll_inertia: float | None = None  #: of the sprung mass [kg m²]
    wheel_radius: float | None = None  #: rolling radius of the driven wheels, for a launch from torque [m]
    front_drive: float | None = None  #: share of the drive force at the front where all wheels drive, of 1
    file: str = ""  #: the file it was read from, for messages
    links: Links | None = None  #: of the driven axle, in the place of antisquat and instant_centre
    extras: Extras = field(default_factory=Extras)  #: what only a launch at large angles takes
    #: half widths of 95 % limits where the file states them with ±, by key such as "cg_height" or "front.spring", SI
    plus_minus: Mapping[str, float] = field(default_factory=dict)
    #: what a scale under both wheels of an axle shows, by axle, where the file states that [kg]
    axle_mass: Mapping[str, float] = field(default_factory=dict)
    units: Shown = "metric"  #: of who reads it: what no key of the file states is taken round in them

    def targets_of(self, axle: str) -> Targets:
        """Return the targets of an axle; where the file has none, nothing is wanted at the car's usual speeds."""
        low, high = SPEEDS[self.units]
        return self.targets.get(axle) or Targets(low_velocity=low, high_velocity=high)

    def axle(self, axle: str) -> tuple[Corner, ...]:
        """Return the corners of one axle, left first."""
        return tuple(c for name, c in self.corners.items() if axle_of(name) == axle)
