"""The clicks that keep the damping ratios after a change of spring, weight, motion ratio or shock.

The same ratio after a change of rate k and mass m means a coefficient at the wheel that goes with the root of k·m
(`corner.vibration.critical_damping`), at the same velocities of the wheel: what the wheel feels is kept. Where the
shock's motion ratio changed, the shock moves faster or slower for it, and is asked at that velocity.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from dynoan.analysis.choosing.aims import CornerAim, Group, Place, WantedRatio, wanted_same
from dynoan.analysis.choosing.assumptions import CLOSE
from dynoan.analysis.choosing.choice import PlaceChoice, within_tolerance
from dynoan.analysis.choosing.choose import plans
from dynoan.analysis.choosing.one_pack import Rules
from dynoan.analysis.corner.rates import corner_rates
from dynoan.analysis.corner.ratio_measures import Level, SecantKey
from dynoan.analysis.corner.ratios import corner_ratios
from dynoan.errors import CallError
from dynoan.model.banded import Banded
from dynoan.model.car import Corner
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve

Secants = Mapping[SecantKey, float]  #: ratios by direction and "low" or "high"


@dataclass(frozen=True)
class Moved:
    """One corner before and after the change."""

    before: Corner
    before_curve: Curve
    after: Corner
    after_curve: Curve | None  #: of the clicks the changed car states; None where it states no pack
    now: Mapping[str, int] | None = None  #: those clicks, from closed
    last: Mapping[str, int] | None = None  #: the last click of each adjuster of its own shock
    #: how unsure the ratio after over that before is of values that changed, as a share of it (95 %)
    spread: float = 0.0
    own: float = 0.0  #: how unsure the ratio after alone is of the changed car's own values, as a share of it (95 %)

    @property
    def speed(self) -> float:
        """How many times as fast the shock moves after the change, at the same speed of the wheel. [1]"""
        return self.after.shock_ratio / self.before.shock_ratio


@dataclass(frozen=True)
class CarriedCorner:
    """The ratios of one corner: before, as the changed car stands, and with the carried clicks."""

    name: str
    before: Secants
    untouched: Secants | None  #: None where the changed car states no pack
    carried: Mapping[SecantKey, Banded]  #: limits hold the car's own ±; what is kept hangs on what changed alone
    force_factor: float  #: what the force at the shock must be multiplied with to keep the wheel's, at its own speeds

    def lost(self, key: SecantKey) -> float:
        """Return how far a ratio is off after carrying, as a share of what it was. [1]"""
        return self.carried[key].value / self.before[key] - 1.0


@dataclass(frozen=True)
class Carried:
    """The setting that keeps the ratios of the corners that share it."""

    choice: PlaceChoice
    corners: tuple[CarriedCorner, ...]


def carry(
    name: str, moved: Sequence[Moved], maps: Sequence[ClickMap], rules: Rules, velocities: tuple[float, float]
) -> Carried:
    """Return the setting of the packs at hand that keeps the ratios of corners at the low and the high velocity.

    The smallest turn from what the changed car states that keeps every ratio within `CLOSE`, on tested ground where
    that can be; where no turn of the pack on it does, the best setting there is, again on tested ground where it fits.

    Parameters
    ----------
    name
        Of the place: the axle, or the corner.
    moved
        The corners that share the setting.
    maps
        Of the packs that may be used.
    rules
        Of the search; the tolerance says from where on a ratio counts as lost.
    velocities
        Low and high, at the shock. [m/s]

    Raises
    ------
    CallError
        If no pack may be used.
    QuantityError
        If a sprung mass, a spring or a motion ratio is not a finite number above zero.
    """
    low, high = velocities
    aims = tuple(CornerAim(m.after, _wanted(m, low, high), now=m.now, last=m.last, spread=m.spread) for m in moved)
    place = Place(name, aims, low * moved[0].speed, high * moved[0].speed)
    for attempt in _attempts(place, maps, rules):
        best = _best(place, maps, attempt)
        if best is not None and best.fits:
            break
    else:
        best = plans([Group(name, (place,))], maps, rules)[0].choices[0]
    judged = _judged(best, rules)
    if all(m.before == m.after and _stays(m, best) for m in moved):  # nothing changed, so nothing is lost
        judged = replace(judged, fits=True, sure=True)
    return Carried(judged, tuple(_corner(m, best, velocities) for m in moved))


def _wanted(moved: Moved, low: float, high: float) -> tuple[WantedRatio, ...]:
    """Return the ratios there were, at the velocities the changed car's shock has when the wheel moves as then."""
    return tuple(
        replace(w, velocity=w.velocity * moved.speed) for w in wanted_same(moved.before, moved.before_curve, low, high)
    )


def _attempts(place: Place, maps: Sequence[ClickMap], rules: Rules) -> Iterator[Rules]:
    """Yield rules from the narrowest to those asked for."""
    grounds = (True,) if rules.inside else (True, False)
    if all(aim.now for aim in place.aims):
        furthest = max((a.clicks for click_map in maps for a in click_map.adjusters), default=0)
        furthest = furthest if rules.within is None else min(rules.within, furthest)
        for inside in grounds:
            for within in range(furthest + 1):
                yield replace(rules, tolerance=min(CLOSE, rules.tolerance), inside=inside, within=within)
    for inside in grounds:
        yield replace(rules, inside=inside)


def _best(place: Place, maps: Sequence[ClickMap], rules: Rules) -> PlaceChoice | None:
    try:
        return plans([Group(place.name, (place,))], maps, rules)[0].choices[0]
    except CallError:
        return None  # no pack may be used under these rules


def _judged(best: PlaceChoice, rules: Rules) -> PlaceChoice:
    """Return a choice with its verdict by the tolerance asked for, not by that of the attempt that found it."""
    fits, sure = within_tolerance(best.reached, rules.tolerance)
    return replace(best, fits=fits, sure=sure)


def _corner(moved: Moved, best: PlaceChoice, velocities: tuple[float, float]) -> CarriedCorner:
    carried = {
        (r.wanted.direction, _level(r.wanted.velocity / moved.speed, velocities)): _whole(moved, r.ratio)
        for r in best.reached
        if r.corner == moved.after.name
    }
    untouched = None
    if moved.after_curve is not None:
        faster = (velocities[0] * moved.speed, velocities[1] * moved.speed)
        untouched = _secants(moved.after, moved.after_curve, faster)
        if _stays(moved, best):
            carried = {key: _at(banded, untouched[key]) for key, banded in carried.items()}
    return CarriedCorner(
        name=moved.after.name,
        before=_secants(moved.before, moved.before_curve, velocities),
        untouched=untouched,
        carried=carried,
        force_factor=corner_rates(moved.after).critical_shock / corner_rates(moved.before).critical_shock * moved.speed,
    )


def _whole(moved: Moved, change: Banded) -> Banded:
    """Return a ratio whose limits hold what is open of the change as one whose limits hold all that is open of it."""
    ends = []
    for way in (change.value - change.low, change.high - change.value):
        of_curve = math.sqrt(max(way**2 - (moved.spread * change.value) ** 2, 0.0))
        ends.append(math.hypot(of_curve, moved.own * change.value))
    return replace(change, low=max(change.value - ends[0], 0.0), high=change.value + ends[1])


def _stays(moved: Moved, best: PlaceChoice) -> bool:
    """Tell whether what is on the changed car already is what goes on it."""
    return moved.now is not None and best.pack == moved.after.pack and dict(best.clicks) == dict(moved.now)


def _at(banded: Banded, value: float) -> Banded:
    """Return a ratio of the click map as the test of these very clicks has it, its limits alike about it."""
    factor = value / banded.value
    return replace(banded, value=value, low=factor * banded.low, high=factor * banded.high)


def _level(velocity: float, velocities: tuple[float, float]) -> Level:
    low, high = velocities
    return "low" if abs(velocity - low) < abs(velocity - high) else "high"


def _secants(corner: Corner, curve: Curve, velocities: tuple[float, float]) -> dict[SecantKey, float]:
    return {key: banded.value for key, banded in corner_ratios(corner, curve, *velocities).secants().items()}
