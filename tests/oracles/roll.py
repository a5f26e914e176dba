"""Anti-roll bars, load moved in a corner, what a driveshaft leaves of the grip: published, and only tests need it."""

from __future__ import annotations

import math

from dynoan.analysis.launch.torque_reaction import roll_stiffness


def bar_rate(diameter: float, length: float, modulus: float, inner: float = 0.0) -> float:
    """Torsion rate of a round bar. [N·m/rad]"""
    return math.pi * (diameter**4 - inner**4) * modulus / (32 * length)


def arm_rate(diameter: float, arm: float, young: float) -> float:
    """Rate of a round arm as a cantilever at its end. [N/m]"""
    return 3 * young * math.pi * diameter**4 / 64 / arm**3


def lateral(mass: float, acceleration: float, arm: float, own: float, other: float, base: float, far: float,
            centre: float, track: float) -> float:  # fmt: skip
    """Load moved across an axle in a corner: `far` to the other axle, `centre` its roll centre's height. [N]"""
    return mass * acceleration / track * (arm * own / (own + other) + far / base * centre)


def with_tyres(stiffness: float, tyre: float, track: float) -> float:
    """Return a roll stiffness with the tyres in series. [N·m/rad]

    Parameters
    ----------
    stiffness
        Of springs and bar. [N·m/rad]
    tyre, track
        Rate of one tyre, and the track. [N/m, m]
    """
    of_tyres = roll_stiffness(tyre, track)
    return stiffness * of_tyres / (stiffness + of_tyres)


def traction_limit(*, driven: float, grip: float, transfer: float, moved: float, locked: bool) -> float:
    """Return the drive force that the driven tyres hold, as the shaft unloads one of them. [as the load]

    Parameters
    ----------
    driven
        Load of the axle at rest.
    grip
        [1]
    transfer, moved
        Load gained by the axle, and lost by its light tyre, per drive force. [1]
    locked
        Whether the differential is: else the light tyre rules both.
    """
    return grip * driven / (1.0 - grip * transfer + (0.0 if locked else 2.0 * grip * moved))
