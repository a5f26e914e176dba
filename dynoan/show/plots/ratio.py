"""The damping ratio against the velocity of the shock, both directions, with the targets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.analysis.corner.secants import ratio_curve, ratio_per_force
from dynoan.model.car import AXLES, CORNER_NAMES, Corner, Targets
from dynoan.model.shock import setting_words
from dynoan.show.plots import low_speeds, style
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.ratio import RatioAnswer
    from dynoan.model.curve import Curve

#: below this a secant is a small force over a small velocity: mostly the rig's noise [m/s]
SLOWEST = 0.01


def draw_ratio(
    ax: Any, lines: Sequence[tuple[str, Corner, Curve]], wanted: Sequence[tuple[float, float]], units: Shown = "metric"
) -> Any:
    """Draw secant ratios against velocity, rebound to the left, with bands and what is wanted.

    `lines` are (label, corner, curve), `wanted` pairs of (signed velocity [m/s], ratio).
    """
    for i, (label, corner, curve) in enumerate(lines):
        look = style.line(style.series(i))
        for sign, side in ((-1, curve.rebound), (1, curve.compression)):
            v = sign * np.linspace(SLOWEST, max(side.top_speed, 2 * SLOWEST), 200)
            x = style.in_units(v, "velocity", units)
            low, high = (np.abs(f) * ratio_per_force(corner, v) for f in curve.band(v))
            ax.fill_between(x, low, high, **style.band(look["color"]))
            ax.plot(x, ratio_curve(corner, curve, v), label=label if sign > 0 else None, **look)
    draw_wanted(ax, wanted, units)
    ax.axvline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    ax.set_ylim(bottom=0.0)
    ax.set_ylim(top=min(ax.get_ylim()[1], 2.0))
    style.label_axes(
        ax, ("rebound  ←  velocity at the shock  →  compression", "velocity"), ("damping ratio", ""), units
    )
    style.legend(ax)
    return ax


def draw_wanted(ax: Any, wanted: Sequence[tuple[float, float]], units: Shown = "metric") -> Any:
    """Draw wanted ratios: a mark at each signed velocity [m/s], joined within a direction."""
    label: str | None = "wanted"
    for points in ([p for p in wanted if p[0] < 0], [p for p in wanted if p[0] > 0]):
        if points:
            x = style.in_units([v for v, _ in sorted(points)], "velocity", units)
            ax.plot(x, [r for _, r in sorted(points)], marker="x", markersize=8, markeredgewidth=2.0, zorder=5,
                    label=label, **style.TARGET)  # fmt: skip
            label = None
    return ax


def target_points(targets: Targets | None) -> list[tuple[float, float]]:
    """Return targets as pairs of (signed velocity [m/s], ratio)."""
    if targets is None:
        return []
    ends = (targets.low_velocity, targets.high_velocity)
    return [
        (sign * v, r)
        for sign, target in ((1, targets.compression), (-1, targets.rebound))
        for v, r in (*zip(ends, (target.low, target.high), strict=True), *target.curve)
        if r is not None
    ]


def figure(answer: RatioAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of a car: one panel an axle."""
    drawn, axes = new_rows(len(AXLES))
    car, curves = answer.car, answer.curves
    for row, axle in zip(axes, AXLES, strict=True):
        lines = [(f"{CORNER_NAMES[c.name]}: {on_it(c)}", c, curves[c.name]) for c in car.axle(axle) if c.name in curves]
        draw_both(row, lines, target_points(car.targets.get(axle)), units)
        style.title(row[0], f"{car.name}, {axle}")
    return drawn


def on_it(corner: Corner) -> str:
    """Return what is on a corner, in words for a legend."""
    parts = (corner.shock, setting_words(corner.pack, corner.clicks) if corner.pack else None)
    return " ".join(filter(None, parts)) or "not stated"


def new_rows(count: int) -> tuple[Figure, Any]:
    """Return a figure for `draw_both`, of so many rows below one another, and its axes."""
    return style.new_figure(250, 95 * count, count, 2, squeeze=False, gridspec_kw={"width_ratios": [5, 3]})


def draw_both(
    row: Sequence[Any], lines: Sequence[tuple[str, Corner, Curve]], wanted: Sequence[tuple[float, float]],
    units: Shown = "metric",
) -> None:  # fmt: skip
    """Draw ratios over all velocities in the first axes, over low ones, where low-speed clicks act, in the second."""
    for ax in row:
        draw_ratio(ax, lines, wanted, units)
    low_speeds.low_speeds(row[1], units)
    row[1].set_ylim(bottom=0.0)
    row[1].set(xlabel=style.axis_label("velocity at the shock", "velocity", units))
    if (legend := row[1].get_legend()) is not None:  # none where no corner of an axle has a curve
        legend.remove()
