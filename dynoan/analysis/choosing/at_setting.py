"""The ratios that a setting of a pack gives a corner or a place, with their bands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from dynoan.analysis.choosing.aims import CornerAim, Place
from dynoan.analysis.clickmap.every_click.one_shock import named_table
from dynoan.analysis.corner.ratio_measures import SecantKey
from dynoan.analysis.corner.secants import ratio_per_force
from dynoan.model.banded import Banded
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, NEAR_TOP, Direction


def ratios_at(
    click_map: ClickMap, aim: CornerAim, clicks: Mapping[str, int], direction: Direction, velocities: Sequence[float]
) -> list[Banded]:
    """Return the ratios of a corner at velocities of one direction, with their bands. [1]

    Parameters
    ----------
    click_map
        Of the pack; a shock it knows apart has its own force.
    aim
        The corner.
    clicks
        Of every adjuster, from closed.
    direction, velocities
        Magnitudes at the shock. [m/s]

    Returns
    -------
    :
        One a velocity, none below zero; extrapolated beyond the pack's top speed.

    Raises
    ------
    QuantityError
        If sprung mass or wheel rate is not a finite number above zero.
    """
    if not velocities:
        return []
    one = click_map.direction(direction).one(clicks)
    table = named_table(click_map, direction, one, aim.corner.shock or "")
    v = np.asarray(velocities, dtype=float)
    force, low, high = table.limits(v)
    per = ratio_per_force(aim.corner, v)
    down, up = np.hypot(force - low, aim.spread * force), np.hypot(high - force, aim.spread * force)
    rows = zip(force * per, np.maximum(force - down, 0.0) * per, (force + up) * per, v, strict=True)
    return [Banded(float(z), float(lo), float(hi), bool(s > table.top_speed * NEAR_TOP)) for z, lo, hi, s in rows]


def secants(place: Place, click_map: ClickMap, clicks: Mapping[str, int]) -> dict[SecantKey, Banded]:
    """Return the four secant ratios of a setting, mean of the place's corners. [1]

    Parameters
    ----------
    place
        Its corners and its low and high velocity.
    click_map
        Of the pack.
    clicks
        Of every adjuster, from closed.

    Returns
    -------
    :
        Bands are the means of the corners' limits: their errors come from one map and do not average out.

    Raises
    ------
    QuantityError
        If a sprung mass or a wheel rate is not a finite number above zero.
    """
    out: dict[SecantKey, Banded] = {}
    at = place.velocities
    for direction in DIRECTIONS:
        each = [ratios_at(click_map, aim, clicks, direction, list(at.values())) for aim in place.aims]
        for level, corners in zip(at, zip(*each, strict=True), strict=True):
            value, low, high = (float(np.mean([getattr(b, n) for b in corners])) for n in ("value", "low", "high"))
            out[direction, level] = Banded(value, low, high, corners[0].extrapolated)
    return out
