"""What is on the car and the best choice at each place, as curves for a picture."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from dynoan.analysis.choosing.aims import Group
from dynoan.analysis.choosing.choice import Reached
from dynoan.analysis.corner.secants import ratio_curve
from dynoan.jobs.choose.assumptions import SEEN_APART
from dynoan.jobs.choose.ranking import Chosen
from dynoan.model.car import Car, Corner
from dynoan.model.curve import Curve

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class PlaceCurves:
    """What is on the car and the best choice at one corner of a place."""

    where: str
    corner: Corner
    now: Curve | None  #: None where the car's file names no pack
    best: Curve
    wanted: tuple[Reached, ...]  #: of that corner


def curves_of(
    bench: Workbench, car: Car, places: Sequence[Group], best: Mapping[str, Chosen]
) -> tuple[PlaceCurves, ...]:
    """Return the curves of each place: one corner, and others where they are to be seen apart."""
    out: list[PlaceCurves] = []
    for place in (place for group in places for place in group.places):
        made = [_place_curves(bench, car, aim.corner, best[place.name]) for aim in place.aims]
        out += [made[0], *(one for one in made[1:] if _differ(made[0], one, tuple(place.velocities.values())))]
    return tuple(out)


def _differ(one: PlaceCurves, other: PlaceCurves, speeds: Sequence[float]) -> bool:
    """Return whether two corners of a place are to be seen apart: by their masses, springs, ratios or shocks."""
    v = np.array([*speeds, *(-s for s in speeds)])
    pairs = [(one.best, other.best), *([(one.now, other.now)] if one.now and other.now else [])]
    ratios = [(ratio_curve(one.corner, a, v), ratio_curve(other.corner, b, v)) for a, b in pairs]
    return not all(np.allclose(a, b, rtol=SEEN_APART) for a, b in ratios)


def _place_curves(bench: Workbench, car: Car, corner: Corner, chosen: Chosen) -> PlaceCurves:
    choice = chosen.choice
    best = bench.corner_curve(car, corner, clicks=chosen.clicks[corner.name], pack=choice.pack)
    now = bench.corner_curve(car, corner) if corner.pack else None
    own = tuple(r for r in choice.reached if r.corner == corner.name)
    return PlaceCurves(choice.where, corner, now, best, own)
