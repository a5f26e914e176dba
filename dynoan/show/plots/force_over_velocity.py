"""Curves and points as force over velocity, with bands and knees."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.model.curve import Curve
from dynoan.show.plots.low_speeds import low_speeds
from dynoan.show.plots.style import (
    COMPRESSION,
    REBOUND,
    SOFT,
    band,
    heading,
    in_units,
    knee_mark,
    label_axes,
    line,
    new_figure,
    series,
    shared_legend,
    title,
    zero_lines,
)
from dynoan.units import Shown

if TYPE_CHECKING:
    from dynoan.analysis.conditioning.found.result import Conditioned

#: points drawn at most: more only makes files large
MOST_POINTS = 5000
SIDES = (("compression", 1.0, COMPRESSION), ("rebound", -1.0, REBOUND))


def draw_curve(ax: Any, curve: Curve, units: Shown = "metric", label: str = "", number: int | None = None) -> Any:
    """Draw a curve with its band and knees; directions in their own look, or all in the look of the n-th of several.

    Without axes a new figure is made.
    """
    ax = new_figure()[1] if ax is None else ax
    for name, sign, look in SIDES:
        side = curve.side("compression" if sign > 0 else "rebound")
        if side.top_speed <= 0:
            continue
        style = line(look if number is None else series(number))
        v = sign * np.linspace(0.0, side.top_speed, 300)
        low, high = curve.band(v)
        x = in_units(v, "velocity", units)
        text = (f"{label} {name}".strip() if number is None else label if sign > 0 else None) or None
        ax.plot(x, in_units(curve(v), "force", units), **style, label=text)
        ax.fill_between(x, in_units(low, "force", units), in_units(high, "force", units), **band(style["color"]))
        knees = sign * np.array([k.velocity for k in side.knees])
        if len(knees):
            ax.plot(in_units(knees, "velocity", units), in_units(curve(knees), "force", units), linestyle="none",
                    marker="|", markersize=11, markeredgewidth=1.8, color=style["color"], zorder=4)  # fmt: skip
    zero_lines(ax)
    return label_axes(ax, units=units)


def overlay(curves: Sequence[tuple[str, Curve]], units: Shown = "metric") -> Any:
    """Return a figure with several curves over one another."""
    figure, axes = new_figure(240, 112, 1, 2)
    for ax in axes:
        for i, (label, curve) in enumerate(curves):
            draw_curve(ax, curve, units, label, None if len(curves) == 1 else i)
    if any(side.knees for _, curve in curves for side in (curve.compression, curve.rebound)):
        knee_mark(axes[0])
    if len(curves) == 1:
        heading(figure, curves[0][0])
    title(axes[0], "damping force, 95 % bands" if len(curves) > 1 else "damping force, 95 % band")
    low_speeds(axes[1], units)
    shared_legend(figure, axes[0])
    return figure


def draw_points(ax: Any, conditioned: Conditioned, units: Shown = "metric") -> Any:
    """Draw the damping force of a sweep over valve velocity as points, and in grey the force as measured."""
    size = 4.5 if conditioned.layout == "peaks" else 1.4
    rows = conditioned.rows
    if rows is not None:
        pick = thinned(len(rows))
        ax.plot(in_units(rows.velocity[pick], "velocity", units), in_units(rows.force[pick], "force", units),
                linestyle="none", marker=".", markersize=1.2, color=SOFT, alpha=0.7,
                label="as measured", zorder=1,
                rasterized=True)  # fmt: skip
    for name, sign, look in SIDES:
        mine = np.flatnonzero(sign * conditioned.velocity > 0)
        mine = mine[thinned(len(mine))]
        x, y = (
            in_units(conditioned.velocity[mine], "velocity", units),
            in_units(conditioned.force[mine], "force", units),
        )
        ax.plot(x, y, linestyle="none", marker=look["marker"], markersize=size, color=look["color"], alpha=0.75,
                markeredgewidth=0.0 if size < 3 else 1.0, label=f"{name}, damping alone", rasterized=True)  # fmt: skip
    return label_axes(ax, units=units)


def thinned(n: int) -> slice:
    """Return which of so many points are drawn."""
    return slice(None, None, max(1, n // MOST_POINTS))
