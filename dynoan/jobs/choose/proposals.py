"""Targets for a car whose file has none: from what its corners want on a random road, in proportions people use."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from dynoan.analysis.corner.rates import corner_rates
from dynoan.jobs.choose.advice import ProposedTargets
from dynoan.jobs.choose.aims import RatioWish
from dynoan.model.car import AXLES, Car, Target, Targets, axle_of

#: a damping ratio to begin with where no tyre rate tells more; the middle of 0.2 to 0.4; common practice, no source
USUAL = 0.30
#: compression and rebound at the low velocity over the middle ratio; common practice, no source
COMPRESSION, REBOUND = 0.75, 1.25
#: ratio at the high velocity over that at the low one: dampers give way at speed; common practice, no source
AT_SPEED = 0.75
#: a target is told to so many digits
DIGITS = 2


def proposed(car: Car, wish: RatioWish) -> tuple[ProposedTargets, ...]:
    """Return targets for the axles asked for; none where the car's file has targets for any of them."""
    axles = [axle_of(wish.corner)] if wish.corner else [wish.axle] if wish.axle else list(AXLES)
    if any(axle in car.targets for axle in axles):
        return ()
    return tuple(_for(car, axle) for axle in axles)


def _for(car: Car, axle: str) -> ProposedTargets:
    rates = [corner_rates(corner) for corner in car.axle(axle)]
    smooth = [r.comfort for r in rates if r.comfort is not None]
    steady = [r.grip for r in rates if r.grip is not None]
    both = len(smooth) == len(rates) == len(steady)
    middle = float(np.mean([*smooth, *steady])) if both else USUAL
    low = {d: round(middle * share, DIGITS) for d, share in (("compression", COMPRESSION), ("rebound", REBOUND))}
    made = {d: Target(value, round(value * AT_SPEED, DIGITS)) for d, value in low.items()}
    targets = Targets(made["compression"], made["rebound"])
    return ProposedTargets(
        axle, targets, float(np.mean(smooth)) if both else None, float(np.mean(steady)) if both else None
    )


def with_proposals(car: Car, proposals: Sequence[ProposedTargets]) -> Car:
    """Return a car with proposed targets in the place of those it lacks."""
    return replace(car, targets={**car.targets, **{p.axle: p.targets for p in proposals}}) if proposals else car
