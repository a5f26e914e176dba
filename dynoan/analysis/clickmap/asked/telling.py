"""Which further run of an unknown shock would tell which of two packs it is.

Its clicks are not known, yet every adjuster can be turned all in or all out. At these settings two maps are held
against one another as an unknown curve is: what a shock differs by in common is no evidence, nor is what lies within
both maps' bands.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from dynoan.analysis.clickmap.assumptions.identify import (
    IDENTIFY_SPEEDS,
    MAP_RUNS_ON,
    RUN_SCATTER,
    SMOOTH_SHARE,
    TELLING,
)
from dynoan.analysis.clickmap.assumptions.spread import EXPECTED_SPREAD
from dynoan.analysis.clickmap.trends.discrepancy import speed_kernel
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS

Clicks = Mapping[str, int]


@dataclass(frozen=True)
class TellingRun:
    """The run, adjusters at their ends, after which the likeliest packs lie furthest apart."""

    from_closed: dict[str, int]
    apart: float  #: by how many standard deviations the two that lie nearest there differ [1]

    @property
    def tells(self) -> bool:
        """Whether it would tell them apart in all likelihood."""
        return self.apart >= TELLING


def telling_run(maps: Sequence[ClickMap], likely: Sequence[Clicks]) -> TellingRun | None:
    """Return the run that would tell the likeliest packs apart, of all with adjusters at an end; clicks from closed.

    Parameters
    ----------
    maps
        Of the packs it may be; where there is one, a pack that nobody tested is the other: the run is then the one
        that lies furthest from what was measured, where a pack that is alike by chance is not so again.
    likely
        Of each the clicks at which it is likeliest.

    Returns
    -------
    TellingRun or None
        None where there is nothing to turn.
    """
    first = maps[0]
    ends = [(0, one.clicks) for one in first.adjusters if one.clicks > 0]
    names = [one.name for one in first.adjusters if one.clicks > 0]
    places = [dict(zip(names, place, strict=True)) for place in product(*ends)] if names else []
    found = [TellingRun(place, _least_apart(maps, likely, place)) for place in places]
    return max(found, key=lambda run: run.apart, default=None)


def _least_apart(maps: Sequence[ClickMap], likely: Sequence[Clicks], place: Clicks) -> float:
    if len(maps) == 1:
        return separation((maps[0], maps[0]), (place, likely[0]))
    pairs = [(a, b) for i, a in enumerate(maps) for b in maps[i + 1 :]]
    return min(separation(pair, (place, place)) for pair in pairs)


def separation(maps: tuple[ClickMap, ClickMap], places: tuple[Clicks, Clicks]) -> float:
    """Return how far two packs' forces at two settings lie apart, in standard deviations of what one run tells. [1]"""
    rows = [_ratio(maps, places, *sign) for sign in zip(DIRECTIONS, (1.0, -1.0), strict=True)]
    away = np.concatenate([ratio for ratio, _ in rows])
    covariance = np.full((away.size, away.size), 2.0 * EXPECTED_SPREAD**2)
    start = 0
    for ratio, own in rows:
        covariance[start : start + ratio.size, start : start + ratio.size] += own
        start += ratio.size
    return float(np.sqrt(away @ np.linalg.solve(covariance, away)))


def _ratio(
    maps: tuple[ClickMap, ClickMap], places: tuple[Clicks, Clicks], direction: str, sign: float
) -> tuple[FloatArray, FloatArray]:
    """Return the logarithm of one's force over the other's in a direction, and its covariance. [1]"""
    sides = [m.compression if direction == "compression" else m.rebound for m in maps]
    top = min(side.top_speed for side in sides)
    speeds = np.array([s for s in IDENTIFY_SPEEDS if s <= top * 1.001] or [top])
    alike, each = speed_kernel(speeds, speeds), np.eye(len(speeds))
    covariance = RUN_SCATTER**2 * (SMOOTH_SHARE * alike + (1 - SMOOTH_SHARE) * each)
    logs = []
    for one, place in zip(maps, places, strict=True):
        known = {a.name: min(place[a.name], a.clicks) for a in one.adjusters if a.name in place}
        force, half = (np.maximum(np.abs(values), 1.0) for values in one.force(known, sign * speeds))
        share = half / (Z95 * force)
        covariance = covariance + np.outer(share, share) * (MAP_RUNS_ON * alike + (1 - MAP_RUNS_ON) * each)
        logs.append(np.log(force))
    return logs[0] - logs[1], covariance
