"""Bump and droop stops of an axle as hinges over the wheel's travel: each adds its rate from where it begins."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from dynoan.analysis.launch.assumptions import NO_STOP
from dynoan.model.car import Car, Corner, axle_of
from dynoan.model.links import StopCurve

#: travel at which a hinge begins [m], and the rate it adds [N/m]; travel rises
StopHinges = tuple[tuple[float, float], ...]


def axle_stops(car: Car, corners: Sequence[Corner], rate: float) -> tuple[StopHinges, StopHinges] | None:
    """Return the bump and the droop stops of both wheels of an axle together; None where none has a curve.

    Parameters
    ----------
    car
        Whose stops are by axle or by corner.
    corners
        Both corners of the axle.
    rate
        Of both wheels' stops where a corner has no curve. [N/m]

    Returns
    -------
    :
        Travel from rest, compression positive for bump and negative for droop, as magnitudes [m]; rates [N/m].
    """
    both = [[_of(curves, c) for c in corners] for curves in (car.extras.bump_stop, car.extras.droop_stop)]
    if not any(curve for of in both for curve in of):
        return None
    found = []
    for curves, key in zip(both, ("bump_travel", "droop_travel"), strict=True):
        ends = [NO_STOP if (end := getattr(c, key)) is None else end for c in corners]
        hinges = [
            hinge
            for curve, end in zip(curves, ends, strict=True)
            for hinge in (_hinges(curve, end) if curve else [(min(ends), rate / len(corners))])
        ]
        found.append(_merged(hinges))
    return found[0], found[1]


def _of(curves: Mapping[str, StopCurve], corner: Corner) -> StopCurve | None:
    return curves.get(corner.name) or curves.get(axle_of(corner.name))


def _hinges(curve: StopCurve, end: float) -> list[tuple[float, float]]:
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in pairwise(curve)]
    return [
        (end + point[0], slope - before) for point, slope, before in zip(curve, slopes, [0.0, *slopes], strict=False)
    ]


def _merged(hinges: Sequence[tuple[float, float]]) -> StopHinges:
    rates: dict[float, float] = {}
    for at, rate in sorted(hinges):
        rates[at] = rates.get(at, 0.0) + rate
    return tuple(rates.items())


def at_wheel(curve: StopCurve, ratio: float) -> StopCurve:
    """Return a shock's stop as its wheel feels it: travel [m] and force [N].

    Parameters
    ----------
    curve
        At the shock. [m, N]
    ratio
        Shock travel per wheel travel.
    """
    return tuple((travel / ratio, force * ratio) for travel, force in curve)
