"""Pictures of several curves held against one another."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.show.plots.force_over_velocity import draw_curve
from dynoan.show.plots.low_speeds import low_speeds, stretch_low_speeds
from dynoan.show.plots.style import (
    COMPRESSION,
    INK,
    REBOUND,
    TARGET,
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
)
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.analysis.matching.compare import Crossing
    from dynoan.analysis.matching.match import Match
    from dynoan.jobs.compare import CompareAnswer
    from dynoan.model.sweep import Sweep


LONGEST = 14  #: of a label that fits a panel's title [characters]


def draw_differences(ax: Any, labels: Sequence[str], curves: Sequence[Curve], units: Shown = "metric") -> Any:
    """Draw by how many percent each curve differs from the first over signed velocity."""
    for i, curve in enumerate(curves[1:], start=1):
        for direction in DIRECTIONS:
            sign = 1.0 if direction == "compression" else -1.0
            top = min(c.side(direction).top_speed for c in (curves[0], curve))
            if top <= 0.02:
                continue
            v = sign * np.linspace(0.02, top, 160)
            off = 100 * (curve(v) / curves[0](v) - 1)
            ax.plot(in_units(v, "velocity", units), off, **line(series(i)), label=labels[i] if sign > 0 else None)
    ax.axhline(0.0, color=INK, linewidth=0.9)
    return label_axes(ax, y=("difference from the first", "%"), units=units)


def draw_crossings(ax: Any, found: Sequence[Crossing], units: Shown = "metric") -> Any:
    """Mark where curves surely cross."""
    for one in filter(lambda crossing: crossing.clear, found):
        sign = 1.0 if one.direction == "compression" else -1.0
        ax.plot(in_units(sign * one.speed, "velocity", units), in_units(sign * one.force, "force", units), marker="x",
                color=INK, markersize=7, zorder=5)  # fmt: skip
    return ax


def comparison_figure(
    labels: Sequence[str], curves: Sequence[Curve], found: Sequence[Crossing], units: Shown = "metric"
) -> Any:
    """Return a figure of curves over one another, at all speeds and low ones, and their differences from the first."""
    figure, axes = new_figure(290, 112 + 3 * len(labels), 1, 3)
    for ax in axes[:2]:
        for i, (label, curve) in enumerate(zip(labels, curves, strict=True)):
            draw_curve(ax, curve, units, label, i)
        draw_crossings(ax, found, units)
    title(axes[0], "damping force" + (" (×: curves cross)" if any(one.clear for one in found) else ", 95 % bands"))
    low_speeds(axes[1], units)
    draw_differences(axes[2], labels, curves, units)
    title(axes[2], f"difference from {labels[0]}" if len(labels[0]) < LONGEST else "difference from the first")
    shared_legend(figure, *_with_knees(axes, curves))
    return figure


def _with_knees(axes: Any, curves: Sequence[Curve]) -> tuple[Any, ...]:
    """Return the axes whose legend is shown, with a word on the knees where there are any."""
    any_knee = any(curve.side(direction).knees for curve in curves for direction in DIRECTIONS)
    return (knee_mark(axes[0]) if any_knee else axes[0],)


def draw_match(ax: Any, match: Match, units: Shown = "metric") -> Any:
    """Draw the difference of a pair by speed with its intervals, and the tolerance."""
    for direction, style in (("compression", COMPRESSION), ("rebound", REBOUND)):
        bands = [b for b in match.bands if b.direction == direction]
        x = in_units([b.speed for b in bands], "velocity", units)
        y = np.array([b.difference for b in bands])
        half = np.array([b.high - b.difference for b in bands])
        ax.errorbar(x, y, yerr=half, capsize=3, label=direction, **style)
    for sign in (1.0, -1.0):
        ax.axhline(sign * match.tolerance, **TARGET, label="tolerance" if sign > 0 else None)
    stretch_low_speeds(label_axes(ax, ("speed", "velocity"), ("first stiffer by", "%"), units), units)
    low, high = ax.get_xlim()
    ax.fill_between([low, high], -match.tolerance, match.tolerance, **band(INK, 0.06))
    ax.set_xlim(low, high)
    return ax


def match_figure(labels: tuple[str, str], curves: tuple[Curve, Curve], match: Match, units: Shown = "metric") -> Any:
    """Return a figure of a pair's curves, at all speeds and at low ones, beside their differences and the tolerance."""
    figure, axes = new_figure(290, 118, 1, 3)
    for ax in axes[:2]:
        for i in range(2):
            draw_curve(ax, curves[i], units, labels[i], i)
    title(axes[0], "damping force, 95 % bands")
    low_speeds(axes[1], units)
    draw_match(axes[2], match, units)
    shared_legend(figure, *_with_knees(axes, curves), axes[2])
    title(axes[2], f"{match.verdict} (above 0: first stiffer)")
    return figure


def days_of(sweeps: Sequence[Sweep]) -> str:
    """Return when a curve's sweeps were run, the first and the last day; nothing where none tells it."""
    days = sorted({sweep.date[:10] for sweep in sweeps if sweep.date})
    return f"tested {' to '.join(dict.fromkeys((days[0], days[-1])))}" if days else ""


def figure(answer: CompareAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of what was compared."""
    drawn: Figure = comparison_figure(answer.labels, answer.curves, answer.crossings, units)
    more = f" and {len(answer.labels) - 2} more" if len(answer.labels) > 2 else ""
    days = dict.fromkeys(days_of(one.sweeps) for one in answer.found)
    return heading(drawn, f"{answer.labels[0]} against {answer.labels[1]}{more}", *days)
