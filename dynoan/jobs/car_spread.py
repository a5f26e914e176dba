"""How unsure damping ratios are of the car's own values: each ± of its file moved to both ends, one after the other.

The shifts are taken as independent, so that their squares add, to one another and to the band of the curves.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from dynoan.analysis.corner.ratio_measures import CornerRatios, DirectionRatios
from dynoan.analysis.corner.secants import ratio_per_force
from dynoan.errors import DynoanError
from dynoan.library.car_changes import moved
from dynoan.model.banded import Banded
from dynoan.model.car import Car, Corner, axle_of
from dynoan.model.curve import DIRECTIONS, Direction

#: what a damping ratio at a velocity of the shock hangs on
OF_RATIO = ("mass", "axle_mass", "unsprung", "spring", "spring_ratio", "shock_ratio", "gas_rate")
#: the wheel hop hangs on the tyre too
OF_CORNER = (*OF_RATIO, "tyre")
#: shares of a ± that are tried where its end is no car; numerics
TRIED = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1)


def car_ends(car: Car) -> dict[str, tuple[Car, Car]]:
    """Return a car with each uncertain value of its corners at the lower and at the upper end, by key of its file.

    An end that no car can be is taken as far out as one can, see `beyond_any_car`.
    """
    keys = [key for key in car.plus_minus if key.rpartition(".")[2] in OF_CORNER]
    return {key: (_end(car, key, -1.0), _end(car, key, 1.0)) for key in keys}


def _end(car: Car, key: str, sign: float) -> Car:
    for share in TRIED:
        try:
            return moved(car, key, sign * share)
        except DynoanError:
            continue
    return car


def beyond_any_car(car: Car) -> list[str]:
    """Return, in words, which ± of a car's file reach what no car can be."""
    out = []
    for key in car.plus_minus:
        try:
            for sign in (-1.0, 1.0):
                moved(car, key, sign)
        except DynoanError as error:
            out.append(f"{key}: its ± reaches what no car can be, and bands hold less of it: {error.bare}")
    return out


def corner_ends(ends: Mapping[str, tuple[Car, Car]], name: str) -> Iterator[tuple[str, Corner, Corner]]:
    """Yield a corner with each of its uncertain values at both ends, of `car_ends`, with the key of the file."""
    for key, (low, high) in ends.items():
        if key.rpartition(".")[0] in (name, axle_of(name)):
            yield key, low.corners[name], high.corners[name]


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
    kept = [key for key in OF_RATIO if key not in without]
    shares = [
        max(abs(float(ratio_per_force(end, 1.0)) / base - 1.0) for end in ends)
        for key, *ends in corner_ends(car_ends(car), name)
        if key.rpartition(".")[2] in kept
    ]
    return math.hypot(*shares)


def widened_ratios(
    found: CornerRatios,
    ends: Mapping[str, tuple[Car, Car]],
    of: Callable[[Corner], Mapping[Direction, DirectionRatios]],
) -> CornerRatios:
    """Return a corner's ratios with bands that hold the car's own ± too.

    Parameters
    ----------
    found
        The ratios of the corner as its car's file has it.
    ends
        `car_ends` of the car.
    of
        Makes the ratios of another such corner.
    """
    pairs = [(of(low), of(high)) for _, low, high in corner_ends(ends, found.corner.name)]
    if not pairs:
        return found
    up, down = (_side(found.side(d), [(low[d], high[d]) for low, high in pairs]) for d in DIRECTIONS)
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
