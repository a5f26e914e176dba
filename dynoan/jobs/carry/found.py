"""What a change leaves of the ratios of each corner, and the same as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from dynoan.analysis.choosing.carry import CarriedCorner
from dynoan.analysis.corner.ratio_measures import SECANTS, SecantKey
from dynoan.jobs.choose.answering import nested, verdict_dict
from dynoan.jobs.choose.ranking import Chosen
from dynoan.model.car import Corner
from dynoan.model.curve import Curve
from dynoan.model.shock import clicks_text


@dataclass(frozen=True)
class CarriedCornerFound:
    """One corner: what was on it, what goes on it, and what becomes of its ratios."""

    before: Corner
    after: Corner
    chosen: Chosen  #: of its place
    carried: CarriedCorner

    @property
    def clicks(self) -> dict[str, int]:
        """The clicks that go on it, as its shock counts them."""
        return self.chosen.clicks[self.carried.name]


@dataclass(frozen=True)
class CarriedPlace:
    """Corners that get one and the same setting: an axle, or a single corner."""

    chosen: Chosen
    corners: tuple[CarriedCornerFound, ...]


@dataclass(frozen=True)
class CarriedCurves:
    """What was on a corner of a place before the change, and what goes on it."""

    where: str
    before: Corner
    was: Curve
    after: Corner
    carried: Curve


def place_dict(place: CarriedPlace) -> dict[str, Any]:
    """Return a place as ``dynoan carry --json`` prints it."""
    chosen = place.chosen
    return {
        "where": chosen.choice.where,
        "pack": chosen.choice.pack,
        "clicks": next(iter(chosen.clicks.values())),
        "clicks_by_corner": chosen.clicks,
        **verdict_dict(chosen.choice),
        "corners": {found.carried.name: _corner_dict(found) for found in place.corners},
    }


def _corner_dict(found: CarriedCornerFound) -> dict[str, Any]:
    carried = found.carried
    return {
        "pack_before": found.before.pack,
        "clicks_before": dict(found.before.clicks),
        "before": nested(carried.before),
        "untouched": None if carried.untouched is None else nested(carried.untouched),
        "ratio": nested({key: b.value for key, b in carried.carried.items()}),
        "low": nested({key: b.low for key, b in carried.carried.items()}),
        "high": nested({key: b.high for key, b in carried.carried.items()}),
        "lost_pct": nested({key: 100 * carried.lost(key) for key in SECANTS}),
        "force_factor": carried.force_factor,
    }


def ratio_row(found: CarriedCornerFound, key: SecantKey) -> dict[str, Any]:
    """Return one ratio of a corner, before and after, as a row of a table."""
    carried, banded = found.carried, found.carried.carried[key]
    return {
        "corner": carried.name,
        "pack_before": found.before.pack,
        "clicks_before": clicks_text(found.before.clicks),
        "pack": found.chosen.choice.pack,
        "clicks": clicks_text(found.clicks),
        "direction": key[0],
        "at": key[1],
        "ratio_before": carried.before[key],
        "ratio_untouched": None if carried.untouched is None else carried.untouched[key],
        "ratio": banded.value,
        "ratio_lower": banded.low,
        "ratio_upper": banded.high,
        "lost_pct": 100 * carried.lost(key),
    }
