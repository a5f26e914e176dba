"""How the damping ratios of corners and directions stand to one another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from dynoan.analysis.damping import CornerRatios
from dynoan.model.car import axle_of
from dynoan.model.curve import DIRECTIONS, Direction


@dataclass(frozen=True)
class Balance:
    """How corners and directions stand to one another, at the low and the high velocity."""

    front_rear: Mapping[tuple[Direction, str], float]  #: mean of the front over mean of the rear
    left_right: Mapping[tuple[str, Direction, str], float]  #: by axle
    rebound_compression: Mapping[tuple[str, str], float]  #: by corner


def balance(corners: Mapping[str, CornerRatios]) -> Balance:
    """Return front:rear, left:right and rebound:compression of damping ratios; what lacks a side is left out."""
    secants = {name: {k: v.value for k, v in c.secants().items()} for name, c in corners.items()}
    axles = {a: [s for n, s in secants.items() if axle_of(n) == a] for a in ("front", "rear")}
    keys: list[tuple[Direction, str]] = [(d, at) for d in DIRECTIONS for at in ("low", "high")]
    front_rear = {}
    if axles["front"] and axles["rear"]:
        front_rear = {
            k: _over(np.mean([s[k] for s in axles["front"]]), np.mean([s[k] for s in axles["rear"]])) for k in keys
        }
    left_right = {
        (axle_of(left), *k): _over(secants[left][k], secants[right][k])
        for left, right in (("fl", "fr"), ("rl", "rr"))
        if left in secants and right in secants
        for k in keys
    }
    rebound = {
        (n, at): _over(s["rebound", at], s["compression", at]) for n, s in secants.items() for at in ("low", "high")
    }
    return Balance(front_rear, left_right, rebound)


def _over(top: float | np.floating[Any], bottom: float | np.floating[Any]) -> float:
    return float(top / bottom) if bottom > 0 else float("nan")
