"""Logged velocities under the curve of what was on the car, on one velocity axis."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.car import CORNER_NAMES
from dynoan.model.curve import DIRECTIONS
from dynoan.show.plots import low_speeds, style
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.analysis.travel.summary import CornerTravel
    from dynoan.jobs.travel.found import TravelAnswer
    from dynoan.model.curve import Curve

LOOKS = (2, 5, 3, 4)  #: of the parts; not the looks of compression and rebound
SHOWN = 0.998  #: share of the time whose velocities the axis holds


def draw_curve_above(ax: Any, curve: Curve, limit: float, units: Shown = "metric") -> Any:
    """Draw a curve with its band up to a speed [m/s], and its knees."""
    v = np.linspace(-limit, limit, 401)
    x = style.in_units(v, "velocity", units)
    low, high = (style.in_units(f, "force", units) for f in curve.band(v))
    force = style.in_units(curve(v), "force", units)
    sides = ((v >= 0, style.COMPRESSION, "compression"), (v <= 0, style.REBOUND, "rebound"))
    for side, look, name in sides:
        ax.fill_between(x[side], low[side], high[side], **style.band(look["color"]))
        ax.plot(x[side], force[side], **style.line(look), label=f"{name} of what was on the car")
    style.zero_lines(ax)
    _knee_lines(ax, curve, units)
    return style.label_axes(ax, ("velocity", "velocity"), ("force", "force"), units)


def _knee_lines(ax: Any, curve: Curve | None, units: Shown) -> None:
    if curve is None:
        return
    for direction in DIRECTIONS:
        sign = 1.0 if direction == "compression" else -1.0
        for knee in curve.side(direction).knees:
            ax.axvline(style.in_units(sign * knee.velocity, "velocity", units), color=style.SOFT, linestyle=(0, (2, 2)),
                       linewidth=1.0, zorder=1, label="knee: the slope changes")  # fmt: skip


def draw_histogram(ax: Any, result: CornerTravel, units: Shown = "metric") -> Any:
    """Draw the time by velocity of the whole run and of its first named part as steps, and the knees as lines."""
    names = [n for n in result.parts if n != "all"] or ["all"]
    for i, name in enumerate(names):
        histogram = result.parts[name].histogram
        edges = style.in_units(histogram.edges, "velocity", units)
        look = style.line(style.series(LOOKS[i % len(LOOKS)])) | {"linewidth": 1.3}
        ax.stairs(100 * histogram.share, edges, label=name, color=look["color"], linestyle=look["linestyle"],
                  linewidth=look["linewidth"], fill=False)  # fmt: skip
    ax.axvline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    _knee_lines(ax, result.curve, units)
    # Standing still is one tall bar that would flatten the rest.
    shares = np.concatenate([_without_middle(h.share) for h in _histograms(result)])
    top = 100 * 1.25 * float(shares.max(initial=0.01))
    ax.set_ylim(0.0, top)
    highest = 100 * max(float(h.share.max(initial=0.0)) for h in _histograms(result))
    if highest > top:
        ax.text(0.98, 0.96, f"slowest: {highest:.0f} %", transform=ax.transAxes, ha="right",
                va="top", fontsize=8, color=style.INK)  # fmt: skip
    return style.label_axes(ax, ("velocity", "velocity"), ("time", "%"), units)


def _without_middle(share: FloatArray) -> FloatArray:
    half = len(share) // 2
    return np.concatenate([share[: half - 1], share[half + 1 :]])


def _histograms(result: CornerTravel) -> list[Any]:
    return [part.histogram for name, part in result.parts.items() if name != "all" or len(result.parts) == 1]


def _limit(results: Sequence[CornerTravel]) -> float:
    return max(float(np.quantile(np.abs(r.motion.velocity), SHOWN)) for r in results) * 1.05


def figure(answer: TravelAnswer, units: Shown = "metric") -> Figure:
    """Return one pair of axes a shock, the curve above the histogram."""
    results = [shock.travel for shock in answer.shocks]
    cols = 1 if len(results) == 1 else 2
    blocks = -(-len(results) // cols)
    height = 45 + 75 * blocks
    drawn, axes = style.new_figure(
        100 * cols, height, rows=2 * blocks, cols=cols, sharex=True, squeeze=False,
        gridspec_kw={"height_ratios": [3, 2] * blocks},
    )  # fmt: skip
    limit = _limit(results)
    for i in range(blocks * cols):
        above, below = axes[2 * (i // cols)][i % cols], axes[2 * (i // cols) + 1][i % cols]
        if i >= len(results):
            above.set_visible(False)
            below.set_visible(False)
            continue
        _draw_one(above, below, results[i], limit, units)
    style.shared_legend(drawn, *axes[1], *axes[0])
    return style.heading(drawn, answer.question.car, Path(answer.question.log.path).name)


def _draw_one(above: Any, below: Any, result: CornerTravel, limit: float, units: Shown) -> None:
    if result.curve is not None:
        draw_curve_above(above, result.curve, limit, units)
        above.set_xlabel("")
    else:
        above.set_visible(False)
    draw_histogram(below, result, units)
    for ax in (above, below):
        ax.tick_params(labelbottom=True)  # those of the lowest alone are a page away
    edge = float(style.in_units(limit, "velocity", units))
    below.set_xlim(-edge, edge)
    low_speeds.stretched(below, -edge, edge, units)
    style.title(above if result.curve is not None else below, CORNER_NAMES[result.corner].capitalize())
