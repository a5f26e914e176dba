"""How unsure damping ratios are of the car's own values: each ± of its file moved to both ends, one after the other.

The shifts are taken as independent, so that their squares add, to one another and to the band of the curves.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace

from dynoan.analysis.corner.ratios import CornerRatios, DirectionRatios, ratio_per_force
from dynoan.errors import DynoanError
from dynoan.library.car_changes import moved
from dynoan.model.banded import Banded
from dynoan.model.car import Car, Corner, axle_of

#: what a damping ratio at a velocity of the shock hangs on
OF_RATIO = ("mass", "unsprung", "spring", "spring_ratio", "shock_ratio", "gas_rate")
#: the wheel hop hangs on the tyre too
OF_CORNER = (*OF_RATIO, "tyre")


def corner_ends(car: Car, name: str, keys: tuple[str, ...] = OF_CORNER) -> Iterator[tuple[str, Corner, Corner]]:
    """Yield a corner with each of its uncertain values at the lower and at the upper end, with the key of the file."""
    for key in car.plus_minus:
        place, _, last = key.rpartition(".")
        if last in keys and place in (name, axle_of(name)):
            try:
                ends = [moved(car, key, sign).corners[name] for sign in (-1.0, 1.0)]
            except DynoanError:
                continue  # an end that no car can be; the launch says so
            yield key, ends[0], ends[1]


def ratio_spread(car: Car, name: str, *, without: tuple[str, ...] = ()) -> float:
    """Return how unsure a corner's damping ratios are of the car's own values, as a share of them (95 %). [1]

    Parameters
    ----------
    name
        Of the corner.
    without
        Keys such as "spring" that do not count, as they are the same on both sides of a comparison.
    """
    base = float(ratio_per_force(car.corners[name], 1.0))
    kept = tuple(key for key in OF_RATIO if key not in without)
    shares = [
        max(abs(float(ratio_per_force(end, 1.0)) / base - 1.0) for end in ends)
        for _, *ends in corner_ends(car, name, kept)
    ]
    return math.hypot(*shares)


def widened_ratios(car: Car, found: CornerRatios, of: Callable[[Corner], CornerRatios]) -> CornerRatios:
    """Return a corner's ratios with bands that hold the car's own ± too; `of` makes them of another such corner."""
    ends = [(of(low), of(high)) for _, low, high in corner_ends(car, found.corner.name)]
    if not ends:
        return found
    up = _side(found.compression, [(low.compression, high.compression) for low, high in ends])
    down = _side(found.rebound, [(low.rebound, high.rebound) for low, high in ends])
    return replace(found, compression=up, rebound=down)


def _side(found: DirectionRatios, ends: list[tuple[DirectionRatios, DirectionRatios]]) -> DirectionRatios:
    def wide(name: str) -> Banded:
        return _banded(getattr(found, name), [tuple(getattr(side, name) for side in pair) for pair in ends])

    hop = None if found.hop is None else wide("hop")
    return replace(
        found, low=wide("low"), high=wide("high"), body=wide("body"), hop=hop, random=wide("random")
    )  # fmt: skip


def _banded(value: Banded, ends: list[tuple[Banded, ...]]) -> Banded:
    below = [max([value.value - end.value for end in pair] + [0.0]) for pair in ends]
    above = [max([end.value - value.value for end in pair] + [0.0]) for pair in ends]
    low = value.value - math.hypot(value.value - value.low, *below)
    return replace(value, low=max(low, 0.0), high=value.value + math.hypot(value.high - value.value, *above))
