"""The curve of a click map at one setting."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.every_click.one_shock import named_shock
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.model.shock import clicks_text
from dynoan.model.side import Knee, Segment, Side


def curve_at(
    map: ClickMap, from_closed: Mapping[str, int], *, clicks: Mapping[str, int] | None = None, shock: str | None = None,
    date: str | None = None, pieces: bool = True,
) -> Curve:  # fmt: skip
    """Return the curve of a click map at one setting.

    Parameters
    ----------
    map
        The click map.
    from_closed
        Clicks from closed; an adjuster left out sits at its most tested position.
    clicks
        The same as the shock counts them, to be kept with the curve.
    shock
        Whose force is wanted: of one that the map rests on its own, of any other with the spread between shocks in the
        band; None: the mean shock's, or the only one's.
    date
        When, for a shock that was tested more than once; by default as it was last.
    pieces
        Whether to find the knees and pieces that describe it, which takes most of the time; its forces are the same.

    Raises
    ------
    CallError
        If an adjuster is unknown or a click lies outside it.
    """
    setting = map.complete(from_closed)
    here = replace(map, compression=map.compression.one(setting), rebound=map.rebound.one(setting))
    mine = here if shock is None else named_shock(here, shock, date)
    sides = {d: _side(mine.direction(d), pieces=pieces) for d in DIRECTIONS}
    shown = dict(clicks) if clicks is not None else setting
    return Curve(
        compression=sides["compression"], rebound=sides["rebound"], what=f"{map.pack}@{clicks_text(shown)}",
        shock=shock, pack=map.pack, clicks=shown, gas_force=map.gas_force, gas_rate=map.gas_rate,
        friction=map.friction,
        friction_sd=map.friction_sd, standing=map.standing(setting), temperature=map.reference_c,
    )  # fmt: skip


def _side(table: DirectionMap, *, pieces: bool) -> Side:
    force, low, high = table.limits(table.speeds)
    low, high = np.where(table.speeds > 0, low, 0.0), np.where(table.speeds > 0, high, 0.0)
    inside = table.speeds <= table.top_speed * 1.001
    segments, knees = _described(table.speeds[inside], force[inside]) if pieces else ((), ())
    return Side(segments=segments, knees=knees, speeds=table.speeds, low=low, high=high, top_speed=table.top_speed,
                forces=force)  # fmt: skip


def _described(speeds: FloatArray, forces: FloatArray) -> tuple[tuple[Segment, ...], tuple[Knee, ...]]:
    from dynoan.analysis.fitting.fit import describe

    return describe(speeds, forces)
