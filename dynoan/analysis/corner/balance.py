"""How the damping ratios of corners and directions stand to one another, and the modes they give the car."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from dynoan.analysis.corner.car_modes import CarModes, car_modes
from dynoan.analysis.corner.ratio_measures import LEVELS, SECANTS, CornerRatios, Level, SecantKey
from dynoan.model.car import Car, axle_of
from dynoan.model.curve import Direction


@dataclass(frozen=True)
class Balance:
    """How corners and directions stand to one another, at the low and the high velocity."""

    front_rear: Mapping[SecantKey, float]  #: mean of the front over mean of the rear; empty where an axle has none
    left_right: Mapping[tuple[str, Direction, Level], float]  #: by axle; an axle with one corner is left out
    rebound_compression: Mapping[tuple[str, Level], float]  #: by corner


def balance(corners: Mapping[str, CornerRatios]) -> Balance:
    """Return front:rear, left:right and rebound:compression of damping ratios; what lacks a side is left out. [1]

    Parameters
    ----------
    corners
        Those that have ratios, by name.

    Returns
    -------
    :
        Of the secant ratios; NaN where the one below the line is zero.
    """
    secants = {name: {k: v.value for k, v in c.secants().items()} for name, c in corners.items()}
    axles = {a: [s for n, s in secants.items() if axle_of(n) == a] for a in ("front", "rear")}
    front_rear = {}
    if axles["front"] and axles["rear"]:
        front_rear = {
            k: _over(np.mean([s[k] for s in axles["front"]]), np.mean([s[k] for s in axles["rear"]])) for k in SECANTS
        }
    left_right = {
        (axle_of(left), *k): _over(secants[left][k], secants[right][k])
        for left, right in (("fl", "fr"), ("rl", "rr"))
        if left in secants and right in secants
        for k in SECANTS
    }
    rebound = {(n, at): _over(s["rebound", at], s["compression", at]) for n, s in secants.items() for at in LEVELS}
    return Balance(front_rear, left_right, rebound)


def _over(top: float | np.floating[Any], bottom: float | np.floating[Any]) -> float:
    return float(top / bottom) if bottom > 0 else float("nan")


def linearised_modes(car: Car, corners: Mapping[str, CornerRatios]) -> CarModes:
    """Return the modes of the car with its dampers made linear: body modes and wheel hops each at their own swing.

    Parameters
    ----------
    car
        Four corners with tyre rates, and a wheelbase.
    corners
        Their ratios, by name; a corner without is undamped.

    Raises
    ------
    QuantityError
        If the car lacks a corner, a tyre rate or the wheelbase.
    """
    swing = {
        n: (c.compression.body.value + c.rebound.body.value) / 2 * c.rates.critical_wheel for n, c in corners.items()
    }
    of_body = car_modes(car, swing)
    of_hop = car_modes(car, {n: _hop_damping(c) for n, c in corners.items()})
    half, full = (
        {
            name: (body if name in ("heave", "pitch", "roll") else hops)[name]
            for name in sorted(body, key=lambda n: body[n].frequency)
        }
        for body, hops in ((of_body.half, of_hop.half), (of_body.full, of_hop.full))
    )
    return replace(of_body, half=half, full=full)


def _hop_damping(corner: CornerRatios) -> float:
    up, down, critical = corner.compression.hop, corner.rebound.hop, corner.rates.critical_hop
    return 0.0 if up is None or down is None or critical is None else (up.value + down.value) / 2 * critical
