"""A click map as tables small enough for a phone: exact at the speeds whose numbers are shown, coarse for drawing.

Forces and half bands at the low and high velocities are whole steps of 0.1 N, or of 1/65535 of the largest of their
speed where that is more, so that what the page shows differs from the map by at most half of that. The speeds in
between only draw the curve: 8 bits over the span that clicks make at that speed, which is less than a pixel.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import DIRECTIONS
from dynoan.show.pages.trackside.packing import packed

#: numbers of drawn speeds to try, the finest first
DRAWN = (18, 14, 10, 8, 6, 5)
SAME_VARIANCE = 1e-7  #: variances no further apart are sent as one; shares of force squared [1]
STEP = 0.1  #: of forces whose numbers are shown; less than the last digit shown in any unit [N]


def pack_table(click_map: ClickMap, velocities: Sequence[float], drawn: int) -> dict[str, Any]:
    """Return one pack as JSON types: adjusters, tested settings, and the tables of both directions.

    Parameters
    ----------
    click_map
        The pack's map.
    velocities
        Speeds at which numbers are shown. [m/s]
    drawn
        How many further speeds draw the curve.
    """
    out: dict[str, Any] = {
        "name": click_map.pack,
        "adjusters": [{"name": a.name, "last": a.clicks} for a in click_map.adjusters],
        "tested": [click_map.complete(t) for t in click_map.tested],
        "seen": {a.name: _seen(click_map, a.name) for a in click_map.adjusters},
        "usual": click_map.complete({}),
        "loo": _finite(click_map.loo_error_pct),
    }
    for direction in DIRECTIONS:
        out[direction] = _direction(click_map.direction(direction), velocities, drawn)
    return out


def _seen(click_map: ClickMap, name: str) -> list[int] | None:
    clicks = [int(t[name]) for t in click_map.tested if name in t]
    return [min(clicks), max(clicks)] if clicks else None


def _finite(value: float) -> float | None:
    return value if np.isfinite(value) else None


def _direction(table: DirectionMap, velocities: Sequence[float], drawn: int) -> dict[str, Any]:
    speeds = table.top_speed * np.linspace(0.0, 1.0, drawn + 1)[1:] ** 1.6
    force, _ = table.at(speeds)
    exact, half = table.at(np.asarray(velocities))
    return {
        "adjusters": list(table.adjusters),
        "shape": list(table.force.shape[:-1]),
        "top": table.top_speed,
        "spread": table.spread,
        "alike": max(table.alike),  # the page's bands reach as far down as up
        "exact": [
            {
                "velocity": v,
                "beyond": v > table.top_speed * 1.001,
                "force": _fine(exact[..., i]),
                "half": _fine(half[..., i]),
            }
            for i, v in enumerate(velocities)
        ],
        "drawn": [{"velocity": float(v), **_coarse(force[..., i])} for i, v in enumerate(speeds)],
    }


def added_variance(table: DirectionMap, added: FloatArray, velocities: Sequence[float]) -> list[float | dict[str, Any]]:
    """Return what a shock adds to the variance of a table's forces at speeds: a number, or packed over all clicks.

    Parameters
    ----------
    table
        One direction of the map.
    added
        Of the shape of the table, or one that fits it; a share of force squared. [1]
    velocities
        Speeds at which numbers are shown. [m/s]
    """
    at = np.interp(velocities, table.speeds, np.arange(len(table.speeds)))
    low = np.minimum(at.astype(int), len(table.speeds) - 2)
    whole = np.broadcast_to(added, table.force.shape)
    over = whole[..., low] * (1.0 - (at - low)) + whole[..., low + 1] * (at - low)
    return [_wide(over[..., i]) for i in range(len(velocities))]


def _wide(values: FloatArray) -> float | dict[str, Any]:
    low, high = float(np.min(values)), float(np.max(values))
    if high - low < SAME_VARIANCE:
        return low
    step = (high - low) / 65535
    whole = packed(np.rint((values - low) / step), "<u2")
    return {"shape": list(values.shape), "from": low, "scale": step, "data": whole}


def _fine(values: FloatArray) -> dict[str, Any]:
    scale = max(float(np.max(np.abs(values))) / 65535, STEP)
    return {"scale": scale, "data": packed(np.rint(np.maximum(values, 0.0) / scale), "<u2")}


def _coarse(values: FloatArray) -> dict[str, Any]:
    low, high = float(np.min(values)), float(np.max(values))
    step = (high - low) / 255 or 1.0
    return {"from": low, "scale": step, "data": packed(np.rint((values - low) / step), "<u1")}
