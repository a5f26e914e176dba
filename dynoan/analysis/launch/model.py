"""The car as a planar half-car, 4 degrees of freedom, left and right summed per axle.

Equations (heave z and wheels z_f, z_r up, pitch θ nose up, all from the standing car; u = wheel travel, positive in
compression; S = spring + stops + damper above static; X = drive force; h, L, a, b as usual):

    m_s·z''  = (S_f + s_f·X_f) + (S_r + s_r·X_r)
    I·θ''    = a·(S_f + s_f·X_f) − b·(S_r + s_r·X_r) + h·(X_f + X_r)
    m_u·z_u'' = N − N_static − (S + s·X)     for each axle

The moment h·X takes the inertia of the wheels along: carriers cannot hold a moment, so the links pass it to the body,
and the steady state is m·a·h/L whatever the springs and links do. s·X is what the links carry at a driven axle whose
torque they react (s = tan φ of the line from contact patch to side-view instant centre, signed): at s·X = m·a·h/L,
100 % anti-squat, the driven suspension stays where it is. Left out: friction of the seals, drag, damping of the tyres,
change of h.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from dynoan.analysis.launch import load_transfer as lt
from dynoan.analysis.launch.stops import StopHinges
from dynoan.units import GRAVITY


@dataclass(frozen=True)
class Axle:
    """Both wheels of an axle, at the wheel."""

    name: str
    sprung: float  #: [kg]
    unsprung: float  #: [kg]
    spring: float  #: wheel rate of the springs [N/m]
    gas: float  #: wheel rate of the gas [N/m]
    preload: float  #: what the springs carry at rest; beyond it they go slack [N]
    tyre: float  #: [N/m]
    bump: float  #: travel to the bump stops [m]
    droop: float  #: travel to the droop stops [m]
    stop_rate: float  #: of both wheels' stops, where they have no curve of their own [N/m]
    share: float  #: of the drive force
    slope: float  #: upward force on the body per drive force of this axle
    #: bump and droop stops as hinges: travel at which each begins [m] and the rate it adds [N/m]; of both wheels
    stops: tuple[StopHinges, StopHinges] | None = None

    @property
    def hinges(self) -> tuple[StopHinges, StopHinges]:
        """The stops as hinges: their own, or one rate from the end of the travel on."""
        return self.stops or (((self.bump, self.stop_rate),), ((self.droop, self.stop_rate),))

    @property
    def mass(self) -> float:
        """What the scales show. [kg]"""
        return self.sprung + self.unsprung

    @property
    def static_load(self) -> float:
        """Of both tyres. [N]"""
        return self.mass * GRAVITY


class DrivenLoads(NamedTuple):
    """The load of the driven tyres: what counts of each axle, and what it would be in the steady state."""

    front: float  #: share of the front load that counts, 1 or 0
    rear: float  #: of the rear load
    static: float  #: at rest [N]
    change: float  #: per drive force, by load transfer alone


@dataclass(frozen=True)
class HalfCar:
    """The half-car."""

    front: Axle
    rear: Axle
    frame: lt.Frame  #: masses of the whole car
    pitch_inertia: float  #: of the sprung mass about its centre of gravity [kg·m²]
    driven: str
    notes: tuple[str, ...] = ()  #: what was estimated or left out for want of a key
    torque_in_links: bool = True  #: whether the links hold the driving torque, or a final drive on the body

    @property
    def sprung(self) -> float:
        """Sprung mass of the car. [kg]"""
        return self.front.sprung + self.rear.sprung

    @property
    def arms(self) -> lt.Arms:
        """Sprung centre of gravity to front and to rear axle. [m]"""
        return lt.centre_of_gravity(front=self.front.sprung, rear=self.rear.sprung, wheelbase=self.frame.wheelbase)

    @property
    def driven_loads(self) -> DrivenLoads:
        """How the load of the driven tyres is made up."""
        front, rear = float(self.driven != "rear"), float(self.driven != "front")
        static = front * self.front.static_load + rear * self.rear.static_load
        return DrivenLoads(front, rear, static, (rear - front) * self.frame.height / self.frame.wheelbase)
