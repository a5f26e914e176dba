"""What one setting makes of a place: ratios with their bands, miss, sensitivity, and what limits it.

The miss is the root of the weighted mean square of how far each wanted ratio is off, as a share of it. Bands are the
95 % limits of the click map's forces, carried to ratios, and of what the car's own values leave open; so the miss has a
band too.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.choosing.aims import CornerAim, Place, WantedRatio
from dynoan.analysis.choosing.assumptions import SLACK
from dynoan.analysis.choosing.at_setting import ratios_at, secants
from dynoan.analysis.choosing.points import mean_ratios
from dynoan.analysis.clickmap.asked.authority import moved
from dynoan.analysis.corner.ratio_measures import SecantKey
from dynoan.model.banded import Banded
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Standing


@dataclass(frozen=True)
class Reached:
    """A wanted ratio at one corner and what a setting makes of it."""

    corner: str
    wanted: WantedRatio
    ratio: Banded

    @property
    def off(self) -> float:
        """Ratio over wanted ratio, less 1: the share it is off. [1]"""
        return self.ratio.value / self.wanted.ratio - 1.0


@dataclass(frozen=True)
class PlaceChoice:
    """One setting for one place."""

    where: str
    pack: str
    clicks: Mapping[str, int]  #: from closed
    miss: float  #: share
    miss_low: float  #: least the miss may be within the 95 % limits of the ratios, a share
    miss_high: float  #: most it may be
    fits: bool  #: every wanted ratio within the tolerance
    sure: bool  #: even at the limits of every ratio
    ratio: Mapping[SecantKey, Banded]  #: mean of the corners, by direction and "low" or "high"
    reached: tuple[Reached, ...]  #: every wanted ratio of every corner
    sensitivity: Mapping[str, Mapping[SecantKey, float]]  #: change of ratio per click outward, by adjuster
    standing: Standing
    ends: Mapping[str, str]  #: adjusters at "the stiff end", "the soft end" or "untested clicks"


def choice(place: Place, click_map: ClickMap, clicks: dict[str, int], tolerance: float) -> PlaceChoice:
    """Return what a setting makes of a place: ratios with bands, miss, sensitivity and what limits it.

    Parameters
    ----------
    place
        With something wanted.
    click_map
        Of the pack.
    clicks
        Of every adjuster, from closed.
    tolerance
        How far a ratio may be off to fit, as a share of it.

    Raises
    ------
    QuantityError
        If a sprung mass or a wheel rate is not a finite number above zero.
    """
    reached = tuple(r for aim in place.aims for r in _reached(click_map, aim, clicks))
    fits, sure = within_tolerance(reached, tolerance)
    return PlaceChoice(
        where=place.name,
        pack=click_map.pack,
        clicks=clicks,
        miss=_miss(reached, [r.off for r in reached]),
        miss_low=_miss(reached, [_nearest(r) for r in reached]),
        miss_high=_miss(reached, [_farthest(r) for r in reached]),
        fits=fits,
        sure=sure,
        ratio=secants(place, click_map, clicks),
        reached=reached,
        sensitivity=_per_click(place, click_map, clicks),
        standing=click_map.standing(clicks),
        ends=_ends(click_map, clicks),
    )


def within_tolerance(reached: Sequence[Reached], tolerance: float) -> tuple[bool, bool]:
    """Return whether every ratio is within the tolerance, and whether it is even at its 95 % limits.

    Parameters
    ----------
    reached
        Wanted ratios and what a setting makes of them.
    tolerance
        As a share of each wanted ratio.
    """
    return (
        not any(beyond(r.off, tolerance) for r in reached),
        not any(beyond(_farthest(r), tolerance) for r in reached),
    )


def beyond(off: float, tolerance: float) -> bool:
    """Return whether a ratio that is off by a share is out of tolerance; on the edge it is in.

    Examples
    --------
    >>> beyond(-0.1, 0.1), beyond(0.101, 0.1)
    (False, True)
    """
    return abs(off) > tolerance + SLACK


def _reached(click_map: ClickMap, aim: CornerAim, clicks: Mapping[str, int]) -> list[Reached]:
    out = []
    for direction in DIRECTIONS:
        wanted = [w for w in aim.wanted if w.direction == direction]
        ratios = ratios_at(click_map, aim, clicks, direction, [w.velocity for w in wanted])
        out += [Reached(aim.corner.name, w, ratio) for w, ratio in zip(wanted, ratios, strict=True)]
    return out


def _miss(reached: Sequence[Reached], off: Iterable[float]) -> float:
    """Return the weighted root mean square of shares off."""
    weights = [r.wanted.weight for r in reached]
    return float(np.sqrt(np.average(np.square(list(off)), weights=weights)))


def _nearest(reached: Reached) -> float:
    """Return the least that a ratio may be off within its band, a share; 0 where the wanted ratio lies in it."""
    ratio, wanted = reached.ratio, reached.wanted.ratio
    return max(ratio.low - wanted, wanted - ratio.high, 0.0) / wanted


def _farthest(reached: Reached) -> float:
    """Return the most that a ratio may be off within its band, a share."""
    ratio, wanted = reached.ratio, reached.wanted.ratio
    return max(ratio.high - wanted, wanted - ratio.low) / wanted


def _per_click(place: Place, click_map: ClickMap, clicks: dict[str, int]) -> dict[str, dict[SecantKey, float]]:
    """Return the change of each ratio by one click outward, over the clicks on both sides where there are both.

    NaN of an adjuster that no test moved: the map leaves its ratio where it was, which is no knowledge.
    """
    out: dict[str, dict[SecantKey, float]] = {a.name: {} for a in click_map.adjusters}
    at = place.velocities
    for direction in DIRECTIONS:
        table = click_map.direction(direction)
        columns, into = mean_ratios(place, click_map, direction, list(at.values()))
        for adjuster in click_map.adjusters:
            inner = max(clicks[adjuster.name] - 1, 0)
            outer = min(clicks[adjuster.name] + 1, adjuster.clicks)
            low, high = (table.force[table.index(clicks | {adjuster.name: c})][columns] @ into for c in (inner, outer))
            known = 1.0 if moved(click_map, adjuster.name) else np.nan
            steps = known * (high - low) / max(outer - inner, 1)
            out[adjuster.name] |= {(direction, level): float(step) for level, step in zip(at, steps, strict=True)}
    return out


def _ends(click_map: ClickMap, clicks: Mapping[str, int]) -> dict[str, str]:
    out = {}
    for adjuster in click_map.adjusters:
        click = clicks[adjuster.name]
        seen = [int(t[adjuster.name]) for t in click_map.tested if adjuster.name in t]
        if adjuster.clicks > 0 and click in (0, adjuster.clicks):
            out[adjuster.name] = "the stiff end" if click == 0 else "the soft end"
        elif seen and not min(seen) <= click <= max(seen):
            out[adjuster.name] = "untested clicks"
    return out
