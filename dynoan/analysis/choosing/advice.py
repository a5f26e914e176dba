"""What would fit where nothing does: how far each ratio alone can be reached, and which spring would do it.

A ratio goes with the inverse root of the spring's rate (`corner.vibration.critical_damping`), so that a change of all
springs multiplies every ratio by one factor.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.choosing.aims import Group, Place
from dynoan.analysis.choosing.assumptions import LEAST_FORCE, RATIO_FACTORS
from dynoan.analysis.choosing.choose import ChoicePlan, Rules, plans
from dynoan.analysis.choosing.score import Ranges, allowed, cut, mean_ratios, points_of
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Direction


@dataclass(frozen=True)
class Reach:
    """One wanted ratio alone: what the packs at hand can make of it, whatever the others do."""

    direction: Direction
    velocity: float  #: at the shock [m/s]
    wanted: float  #: mean of the corners
    least: float  #: ratio, mean of the corners
    most: float  #: ratio, mean of the corners
    least_pack: str  #: that has the least
    most_pack: str  #: that has the most


@dataclass(frozen=True)
class SpringFit:
    """The smallest change of the springs with which something fits."""

    factor: float  #: on the rate of every spring
    plan: ChoicePlan


@dataclass(frozen=True)
class _PackReach:
    least: float
    most: float
    pack: str


def reach(place: Place, maps: Sequence[ClickMap], rules: Rules) -> tuple[Reach, ...]:
    """Return for each wanted velocity the least and the most that any allowed click of any pack gives.

    Parameters
    ----------
    place
        With something wanted.
    maps
        Of the packs at hand, one of which the rules allow.
    rules
        Of the search.
    """
    out = []
    for direction in DIRECTIONS:
        wanted = [(aim, w) for aim in place.aims for w in aim.wanted if w.direction == direction]
        for velocity in sorted({w.velocity for _, w in wanted}):
            here = [(aim, w) for aim, w in wanted if w.velocity == velocity]
            only = replace(place, aims=tuple(aim for aim, _ in here))
            spans = []
            for click_map in maps:
                ranges = allowed(click_map, place, inside=rules.inside, within=rules.within)
                if ranges is not None:
                    columns, into = mean_ratios(only, click_map, direction, [velocity])
                    ratio = _allowed_forces(click_map, direction, ranges)[..., columns] @ into
                    spans.append(_PackReach(float(ratio.min()), float(ratio.max()), click_map.pack))
            least, most = min(spans, key=lambda s: s.least), max(spans, key=lambda s: s.most)
            mean = float(np.mean([w.ratio for _, w in here]))
            out.append(Reach(direction, velocity, mean, least.least, most.most, least.pack, most.pack))
    return tuple(out)


def _allowed_forces(click_map: ClickMap, direction: Direction, ranges: Ranges) -> FloatArray:
    """Return forces over all allowed clicks, shape (clicks, …, speeds). [N]"""
    table = click_map.direction(direction)
    return table.force[cut(table, ranges)]


def spring_that_fits(groups: Sequence[Group], maps: Sequence[ClickMap], rules: Rules) -> SpringFit | None:
    """Return the smallest change of the springs with which something fits; None within `RATIO_FACTORS`.

    Parameters
    ----------
    groups
        Whose springs all change by one factor.
    maps
        Of the packs at hand.
    rules
        Of the search.

    Raises
    ------
    CallError
        As `choose.search`.

    Notes
    -----
    A ratio goes with the inverse root of the rate, so each setting fits for a span of rates; the spans of both
    directions must meet at the same shared clicks. Rates are tried in steps, nearest to the present one first.
    """
    places = [place for group in groups for place in group.places]
    open_to = np.ones(len(RATIO_FACTORS), dtype=bool)
    for place in places:
        any_pack = np.zeros(len(RATIO_FACTORS), dtype=bool)
        for click_map in maps:
            any_pack |= _factors_that_fit(place, click_map, rules)
        open_to &= any_pack
    for factor in np.array(RATIO_FACTORS)[open_to]:
        changed = [replace(g, places=tuple(_sprung(p, 1 / factor**2) for p in g.places)) for g in groups]
        found = plans(changed, maps, rules)[0]
        if found.fits:
            return SpringFit(float(1 / factor**2), found)
    return None


def _sprung(place: Place, factor: float) -> Place:
    aims = (replace(aim, corner=replace(aim.corner, spring=aim.corner.spring * factor)) for aim in place.aims)
    return replace(place, aims=tuple(aims))


def _factors_that_fit(place: Place, click_map: ClickMap, rules: Rules) -> BoolArray:
    """Return at which of `RATIO_FACTORS` a setting of a pack fits, shape (factors,)."""
    ranges = allowed(click_map, place, inside=rules.inside, within=rules.within)
    if ranges is None:
        return np.zeros(len(RATIO_FACTORS), dtype=bool)
    shared = [n for n in click_map.compression.adjusters if n in click_map.rebound.adjusters]
    rows = []
    for direction in DIRECTIONS:
        points = points_of(place, click_map, direction, rules.tolerance)
        force = np.maximum(
            _allowed_forces(click_map, direction, ranges)[..., points.columns] @ points.unit, LEAST_FORCE
        )
        low, high = ((limit / force) for limit in (points.least, points.most))
        adjusters = click_map.direction(direction).adjusters
        order = [adjusters.index(n) for n in (*shared, *(n for n in adjusters if n not in shared))]
        count = int(np.prod([force.shape[i] for i in order[: len(shared)]], dtype=int))
        least = low.max(axis=-1, initial=0.0).transpose(order).reshape(count, -1)
        most = high.min(axis=-1, initial=np.inf).transpose(order).reshape(count, -1)
        rows.append([np.any((least <= f) & (f <= most), axis=1) for f in RATIO_FACTORS])
    return np.array([bool(np.any(up & down)) for up, down in zip(*rows, strict=True)])
