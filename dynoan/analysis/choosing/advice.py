"""What would fit where nothing does: how far each ratio alone can be reached, and which spring would do it.

A ratio goes with the inverse root of the spring's rate (`corner.vibration.critical_damping`), so that a change of all
springs multiplies every ratio by one factor.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.choosing.aims import Group, Place
from dynoan.analysis.choosing.assumptions import (
    INSIDE,
    LEAST_FACTOR,
    LEAST_FORCE,
    LEAST_SPRING,
    MOST_SPRINGS,
)
from dynoan.analysis.choosing.choose import ChoicePlan, plans
from dynoan.analysis.choosing.one_pack import Rules
from dynoan.analysis.choosing.points import mean_ratios, points_of
from dynoan.analysis.choosing.ranges import Ranges, allowed, cut
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
    """Return the smallest change of the springs with which something fits; None where no rate at all brings one.

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
    A ratio goes with the inverse root of the rate, so each setting of a direction fits for a span of rates, and a pack
    where the spans of both directions meet at the same shared clicks. Where all places have such spans in common, one
    of them begins at the least factor of a span: only those are tried, nearest to the present rate first.
    """
    places = [place for group in groups for place in group.places]
    spans = [[s for click_map in maps for s in _spans(place, click_map, rules)] for place in places]
    ends = [np.concatenate([np.concatenate([s.least for s in pair]) for pair in one]) for one in spans if one]
    if len(ends) < len(places):
        return None
    factors = np.unique(np.concatenate([*ends, [1.0]]))
    factors = factors[(factors >= LEAST_FACTOR) & (factors <= 1 / LEAST_FACTOR)]
    open_to = np.ones(len(factors), dtype=bool)
    for one in spans:
        open_to &= np.any([up.hold(factors) & down.hold(factors) for up, down in one], axis=0)
    left = factors[open_to]
    for factor in left[np.argsort(np.abs(np.log(left)), kind="stable")][:MOST_SPRINGS]:
        # a hair inside the span that begins here, so that rounding does not put it outside
        rate = 1 / (factor * (1 + INSIDE)) ** 2 if factor != 1 else 1.0
        changed = [replace(g, places=tuple(_sprung(p, rate) for p in g.places)) for g in groups]
        found = plans(changed, maps, rules)[0]
        if found.fits:
            return SpringFit(float(rate), found)
    return None


def _sprung(place: Place, factor: float) -> Place:
    """Return a place with its rates times a factor: of the springs, and of the gas where that is stated, which a team
    cannot change, so that the springs take its part."""
    aims = []
    for aim in place.aims:
        corner = aim.corner
        gas = corner.rate - corner.wheel_rate
        spring = max((corner.rate * factor - gas) / corner.spring_ratio**2, LEAST_SPRING)
        aims.append(replace(aim, corner=replace(corner, spring=spring)))
    return replace(place, aims=tuple(aims))


@dataclass(frozen=True)
class _Spans:
    """Factors on the ratios with which settings of one direction fit, a span a setting."""

    least: FloatArray
    most: FloatArray

    def hold(self, factors: FloatArray) -> BoolArray:
        """Return which of some ascending factors lie in any of the spans."""
        begun = np.searchsorted(np.sort(self.least), factors, side="right")
        ended = np.searchsorted(np.sort(self.most), factors, side="left")
        return np.asarray(begun > ended)


def _spans(place: Place, click_map: ClickMap, rules: Rules) -> list[tuple[_Spans, _Spans]]:
    """Return the spans of compression and rebound for each setting of the adjusters both share."""
    ranges = allowed(click_map, place, inside=rules.inside, within=rules.within)
    if ranges is None:
        return []
    shared = [n for n in click_map.compression.adjusters if n in click_map.rebound.adjusters]
    sides = []
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
        sides.append([_Spans(a[a <= b], b[a <= b]) for a, b in zip(least, most, strict=True)])
    return list(zip(*sides, strict=True))
