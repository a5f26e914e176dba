"""The picture of what `read` found: force against velocity."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes

from dynoan.jobs.read import ReadAnswer, SweepRead
from dynoan.show.plots.style import COMPRESSION, REBOUND, legend, new_figure, series, title, zero_lines
from dynoan.units import Shown, shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_MOST_POINTS = 40_000


def figure(answer: ReadAnswer, units: Shown = "metric") -> Figure:
    """Return all sweeps in one picture: one sweep by direction, several each in its own colour."""
    drawn, axes = new_figure(width_mm=180, height_mm=120)
    axis = np.asarray(axes, dtype=object).reshape(-1)[0]
    found = [sweep for file in answer.files for sweep in file.sweeps]
    for i, sweep in enumerate(found):
        draw_sweep(axis, sweep, units, None if len(found) == 1 else i)
    axis.set_xlabel(f"velocity [{shown('velocity', units).unit}], compression positive")
    axis.set_ylabel(f"force [{shown('force', units).unit}], gas force as read")
    legend(zero_lines(axis))
    return drawn


def draw_sweep(axis: Axes, found: SweepRead, units: Shown, number: int | None) -> Axes:
    """Draw one sweep as points; `number` picks its colour among several, None colours the directions."""
    sweep = found.sweep
    v, force = found.velocity, sweep.channels["force"]
    if v is None:
        return axis
    every = max(1, len(force) // _MOST_POINTS)
    x, y = v[::every] / shown("velocity", units).factor, force[::every] / shown("force", units).factor
    size = 4.0 if sweep.layout == "peaks" else 1.0
    if number is not None:
        axis.plot(x, y, **(series(number) | {"linestyle": "none", "markersize": size + 1}), label=sweep.setting_text)
        return axis
    for name, side, look in (("compression", x >= 0, COMPRESSION), ("rebound", x < 0, REBOUND)):
        if side.any():
            axis.plot(x[side], y[side], **(look | {"linestyle": "none", "markersize": size + 1}), label=name)
    title(axis, sweep.setting_text)
    return axis
