"""Targets for a car whose file has none, or for one surface: from what its corners want there, as people split it.

On a random road an axle rides smoothest at one damping ratio and keeps its tyres steadiest at a higher one; more holds
the body better and costs steadiness. What that may cost is what the surface leaves: little where the road alone makes
the tyres leave the ground, more where it hardly moves their load.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import fmean

from dynoan.analysis.corner.quarter_car import QuarterCar, comfort_ratio, grip_ratio, ratio_of_swing, tyre_load_swing
from dynoan.analysis.corner.rates import quarter_car
from dynoan.analysis.road import velocity_spectrum
from dynoan.errors import CallError
from dynoan.jobs.choose.advice import ProposedTargets
from dynoan.jobs.choose.aims import RatioWish
from dynoan.jobs.choose.assumptions import (
    AT_SPEED,
    COMPRESSION_SHARE,
    JUDGED_AT,
    LIFTS,
    MOST_PROPOSED,
    REBOUND_SHARE,
    SPENT,
    USUAL_RATIO,
)
from dynoan.model.car import AXLES, Car, Corner, Surface, Target, Targets, axle_of
from dynoan.units import GRAVITY

#: a target is told to so many digits
DIGITS = 2


@dataclass(frozen=True)
class Beginning:
    """Where a team without targets may begin: what is proposed for a surface, or for no one in particular."""

    surface: str  #: empty for no one in particular
    proposals: tuple[ProposedTargets, ...]  #: an axle each


def beginnings(car: Car) -> tuple[Beginning, ...]:
    """Return what is proposed for a car, its own targets aside: for no surface in particular, then for each it has."""
    bare = replace(car, targets={})
    return tuple(
        Beginning(name, proposed(bare, RatioWish(surface=name or None))) for name in ("", *car.surfaces)
    )  # fmt: skip


def begun(car: Car) -> bool:
    """Return whether the targets of a car's file are those proposed to begin with, written down, and no one's own."""
    return bool(car.targets) and any(
        all(_alike(car.targets[p.axle], p.targets) for p in one.proposals if p.axle in car.targets)
        for one in beginnings(car)
    )


def _alike(a: Targets, b: Targets) -> bool:
    return (a.compression, a.rebound) == (b.compression, b.rebound)


def proposed(car: Car, wish: RatioWish) -> tuple[ProposedTargets, ...]:
    """Return targets for the axles asked for; without a surface none where the car's file has any for one of them.

    Raises
    ------
    CallError
        If the car has no surface of that name.
    """
    axles = [axle_of(wish.corner)] if wish.corner else [wish.axle] if wish.axle else list(AXLES)
    if wish.surface is None and any(axle in car.targets for axle in axles):
        return ()
    surface = None if wish.surface is None else _surface(car, wish.surface)
    return tuple(_for(car, axle, surface) for axle in axles)


def _surface(car: Car, name: str) -> Surface:
    if name not in car.surfaces:
        known = ", ".join(car.surfaces) or "none"
        raise CallError(f"{car.file or car.name} has no surface '{name}'", hint=f"it has {known}", part="surface")
    return car.surfaces[name]


def _for(car: Car, axle: str, surface: Surface | None) -> ProposedTargets:
    corners = car.axle(axle)
    quarters = [quarter_car(corner) for corner in corners]
    known = [quarter for quarter in quarters if quarter is not None]
    swing = None
    if len(known) < len(quarters) or not known:
        middle, smooth, steady = USUAL_RATIO, None, None
    else:
        smooth, steady = fmean(comfort_ratio(q) for q in known), fmean(grip_ratio(q) for q in known)
        middle = (smooth + steady) / 2
        if surface is not None:
            judged = [_on(quarter, corner, surface) for quarter, corner in zip(known, corners, strict=True)]
            middle, swing = fmean(ratio for ratio, _ in judged), fmean(share for _, share in judged)
    low = {
        d: round(middle * share, DIGITS)
        for d, share in (("compression", COMPRESSION_SHARE), ("rebound", REBOUND_SHARE))
    }
    made = {d: Target(value, round(value * AT_SPEED, DIGITS)) for d, value in low.items()}
    return ProposedTargets(
        axle, replace(car.targets_of(axle), compression=made["compression"], rebound=made["rebound"]), smooth, steady,
        "" if surface is None else surface.name, swing, middle, replaces=axle in car.targets,
    )  # fmt: skip


def _on(car: QuarterCar, corner: Corner, surface: Surface) -> tuple[float, float]:
    """Return the ratio for a surface, and by what share of its load at rest the road swings the tyre's at the least."""
    smooth, steady, load = comfort_ratio(car), grip_ratio(car), corner.mass * GRAVITY
    if surface.roughness == 0.0:
        return MOST_PROPOSED, 0.0
    spectrum = velocity_spectrum(surface.roughness, JUDGED_AT)
    share = tyre_load_swing(car, spectrum, steady) / load
    if share * LIFTS >= 1.0:
        return smooth + (steady - smooth) / (share * LIFTS), share
    allowed = (share + SPENT * (1.0 - share * LIFTS)) * load
    return max(min(ratio_of_swing(car, spectrum, allowed), MOST_PROPOSED), steady), share


def with_proposals(car: Car, proposals: Sequence[ProposedTargets]) -> Car:
    """Return a car with proposed targets in the place of its own, or of those it lacks."""
    return replace(car, targets={**car.targets, **{p.axle: p.targets for p in proposals}}) if proposals else car
