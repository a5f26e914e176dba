"""What is held of a valve before its tests have spoken: what each axis turns, where parameters lie, what is left."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.clickmap.assumptions.screws import LOOSE, WARPS
from dynoan.analysis.clickmap.assumptions.spread import EXPECTED_DISCREPANCY, EXPECTED_SPREAD, STATES
from dynoan.analysis.clickmap.assumptions.views import PRIOR_WIDTH
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.clickmap.valve.law import INDEX, PARAMETERS, Roles
from dynoan.model.arrays import FloatArray


def roles_of(data: DirectionData, crossing: str | None = None) -> Roles:
    """Return which axis turns the bleed, the opening force and the crossing; only axes that the tests moved."""
    names = [axis.name for axis in data.axes]

    def column(*wanted: str) -> int | None:
        return next((i for i, n in enumerate(names) if n in wanted and data.moved[i]), None)

    own = ("lsc", "c", "cr") if data.direction == "compression" else ("lsr", "r", "cr")
    high = ("hsc", "c", "cr") if data.direction == "compression" else ("hsr", "r", "cr")
    return Roles(column(*own), column(*high), column(crossing) if crossing else None)


def prior_of(data: DirectionData, roles: Roles) -> tuple[FloatArray, FloatArray]:
    """Return centre and standard deviation of the prior, (P,) each, from data and trade. [as `PARAMETERS`]"""
    forces = np.exp(data.logs)
    k = len(data.speeds) // 2
    stiff, soft = np.max(forces, axis=0), np.min(forces, axis=0)
    root = np.sqrt(1000.0)
    closed = data.speeds[k // 2] * root / np.sqrt(stiff[k // 2])
    open_ = data.speeds[k // 2] * root / np.sqrt(soft[k // 2])
    opening = 0.7 * stiff[k]
    rise = max(float(stiff[-1] - stiff[k]), 0.1 * float(stiff[-1]))
    blow = max(0.7 * float(data.speeds[-1] - data.speeds[k]) / rise * 1000.0, 0.05)
    centre = {
        "bleed": np.log(closed), "bleed_gain": np.log(max(open_ - closed, closed)), "bleed_shape": 0.5,
        "opening": np.log(opening), "opening_drop": np.log(0.8), "opening_shape": 0.0,
        "blow": np.log(blow), "blow_power": 1.0, "blow_flow": 0.25, "blow_gain": 0.0, "port": np.log(2.0),
        "leak": np.log(0.004), "corner": np.log(0.1), "bleed_power": 0.55, "corner_power": 0.5, "crossing": 0.0,
        "rest": 0.0,
    }  # fmt: skip
    width = widths(roles)
    width[INDEX["rest"]] *= float(np.median(forces[:, k]))
    return np.array([centre[p] for p in PARAMETERS]), width


def widths(roles: Roles) -> FloatArray:
    """Return the prior standard deviations, zero where no adjuster turns, (P,).

    [as `PARAMETERS`; the force at rest: a share of force]
    """
    out = dict(PRIOR_WIDTH)
    still = {
        "bleed": ("bleed_gain", "bleed_shape"),
        "opening": ("opening_drop", "opening_shape", "blow_gain", "corner_power"),
        "crossing": ("crossing",),
    }
    for role, names in still.items():
        if getattr(roles, role) is None:
            out |= dict.fromkeys(names, 0.0)
    if not roles.rest:
        out["rest"] = 0.0
    return np.array([out[p] for p in PARAMETERS])


def first_spread(data: DirectionData) -> MapSpread:
    """Return the sizes taken before the tests have spoken."""
    several = len(set(data.shock.tolist())) > 1
    first = {state.shock: number for number, state in reversed(list(enumerate(data.states)))}
    states = tuple(0.0 if first[s.shock] == k else STATES[1] for k, s in enumerate(data.states))
    return MapSpread(
        discrepancy=EXPECTED_DISCREPANCY, shock=EXPECTED_SPREAD if several else 0.0,
        states=states, warps=tuple(WARPS[1] for _ in data.axes), loose=tuple(LOOSE[0] for _ in data.axes),
    )  # fmt: skip
