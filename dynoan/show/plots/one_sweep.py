"""The one picture of a sweep: curve and points, loops, what the curve leaves, and what was found."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.model.curve import Curve
from dynoan.show.plots.force_over_velocity import draw_curve, draw_points, thinned
from dynoan.show.plots.left_over import Panel, panels
from dynoan.show.plots.low_speeds import low_speeds
from dynoan.show.plots.style import (
    INK,
    MARKERS,
    SOFT,
    band,
    heading,
    in_units,
    knee_mark,
    label_axes,
    legend,
    new_figure,
    series,
    title,
    zero_lines,
)
from dynoan.show.text.restated import restated
from dynoan.units import Shown, shown

if TYPE_CHECKING:
    from dynoan.analysis.conditioning.found.result import Conditioned
    from dynoan.model.arrays import IntArray
    from dynoan.model.sweep import Sweep

FINDING_WIDTH = 130  #: of a line of findings [characters]
FINDING_MM = 3.7  #: from one line of findings to the next [mm]
SMALL_MM = 34.0  #: height of the small panels of what a curve leaves [mm]
WORDS_MM = 115  #: height of titles, axes' names and legends of a trace's picture together [mm]


def draw_loops(ax: Any, conditioned: Conditioned, units: Shown = "metric") -> Any:
    """Draw force as measured over displacement, one loop a block of constant speed, the fastest darkest."""
    rows = conditioned.rows
    if rows is None or rows.displacement is None:
        ax.text(0.5, 0.5, "no displacement was recorded", ha="center", va="center", transform=ax.transAxes, color=SOFT)
        return label_axes(ax, ("displacement", "length"), units=units)
    blocks = np.unique(rows.block)
    tops = np.array([float(np.max(np.abs(rows.velocity[rows.block == b]))) for b in blocks])
    shown_blocks = blocks[np.argsort(tops)][:: max(1, len(blocks) // 8)]
    for i, block in enumerate(shown_blocks):
        mine = rows.block == block
        last = rows.cycle[mine] == rows.cycle[mine][len(rows.cycle[mine]) // 2]
        x, f = rows.displacement[mine][last], rows.force[mine][last]
        top = shown("velocity", units).text(float(np.max(np.abs(rows.velocity[mine]))))
        dark = 0.5 + 0.5 * (i + 1) / len(shown_blocks)
        ax.plot(in_units(np.append(x, x[0]), "length", units), in_units(np.append(f, f[0]), "force", units), color=INK,
                alpha=dark, linewidth=1.1, label=top if i in _ends(shown_blocks) else None)  # fmt: skip
    label_axes(ax, ("displacement, compression positive", "length"), ("force as measured", "force"), units)
    return legend(ax, title="top speed", title_fontsize=8)


def _ends(blocks: IntArray) -> set[int]:
    return {0, len(blocks) // 2, len(blocks) - 1}


def draw_residuals(ax: Any, conditioned: Conditioned, curve: Curve, units: Shown = "metric") -> Any:
    """Draw what the curve leaves of the damping force over velocity, speeding up and slowing down apart."""
    rest = conditioned.force - curve(conditioned.velocity)
    speeding = (
        np.gradient(np.abs(conditioned.velocity)) >= 0 if conditioned.layout == "trace" else np.ones(len(rest), bool)
    )
    for k, (mine, text) in enumerate(((speeding, "speeding up"), (~speeding, "slowing down"))):
        at = np.flatnonzero(mine)
        at = at[thinned(len(at))]
        if len(at):
            look = series(k)
            ax.plot(in_units(conditioned.velocity[at], "velocity", units), in_units(rest[at], "force", units),
                    linestyle="none", marker=MARKERS[k], markersize=4 if conditioned.layout == "peaks" else 1.3,
                    color=look["color"], markeredgewidth=0.0, rasterized=True,
                    label=text if conditioned.layout == "trace" else None)  # fmt: skip
    v = curve.grid(60)
    low, high = curve.band(v)
    middle = curve(v)
    low, high = in_units(low - middle, "force", units), in_units(high - middle, "force", units)
    ax.fill_between(in_units(v, "velocity", units), low, high, **band(INK), label="95 % band of the curve")
    zero_lines(ax)
    reach = float(np.nanpercentile(np.abs(rest), 99.5)) * 1.6 or 1.0
    ax.set_ylim(-in_units(reach, "force", units), in_units(reach, "force", units))
    label_axes(ax, ("velocity", "velocity"), ("point minus curve", "force"), units)
    return legend(ax, markerscale=3)


def findings_lines(curve: Curve, units: Shown) -> list[str]:
    """Return what was found and taken out, and what is to be minded, in lines that fit below the picture."""
    said = [("• ", restated(text, units)) for text in curve.findings]
    said += [("! ", restated(text, units)) for text in curve.warnings]
    return [
        line
        for mark, text in said
        for line in textwrap.wrap(text, FINDING_WIDTH, initial_indent=mark, subsequent_indent="   ")
    ]


def draw_findings(ax: Any, lines: Sequence[str]) -> Any:
    """Write what was found and taken out."""
    ax.set_axis_off()
    text = ax.text(0.0, 1.0, "\n".join(lines), va="top", ha="left", fontsize=7.5, color=INK, linespacing=1.35,
                   transform=ax.transAxes)  # fmt: skip
    text.set_in_layout(False)  # it is wider than its column, on purpose
    return ax


def sweep_picture(sweep: Sweep, curve: Curve, units: Shown = "metric") -> Any:
    """Return the one picture of a sweep: loops, the fitted curve over its points, what it leaves, and what was found.

    What it leaves stands over velocity, and of a trace in small over the cycle and over travel.
    """
    from dynoan.analysis.conditioning.condition import condition

    conditioned = condition(sweep)
    peaks = conditioned.layout == "peaks"
    means = _means(conditioned, curve, units)
    lines = findings_lines(curve, units)
    figure, axes = new_figure(300, 95, 1, 3) if peaks else _sheet(len(lines), bool(means))
    top, scale = (axes, 1) if peaks else (axes[0], 3)
    for ax in top[:2]:
        draw_points(ax, conditioned, units)
        draw_curve(ax, curve, units)
    if curve.compression.knees or curve.rebound.knees:
        knee_mark(top[0], scale)
    heading(figure, curve.what, (sweep.date or "")[:10])
    title(top[0], "damping force")
    low_speeds(top[1], units)
    legend(top[0], markerscale=scale)
    rest_ax = top[2] if peaks else axes[1][1]
    draw_residuals(rest_ax, conditioned, curve, units)
    title(rest_ax, "what the curve leaves")
    if not peaks:
        _draw_trace(axes, conditioned, curve, units)
        _draw_means(axes[2], means)
    return figure


def _sheet(lines: int, means: bool) -> Any:
    """Return figure and axes of a trace's picture, with room for means in its third row, for lines in its last."""
    rows = (62.0, 62.0, SMALL_MM if means else 1.0, FINDING_MM * lines)
    return new_figure(240, sum(rows) + WORDS_MM, len(rows), 2, gridspec_kw={"height_ratios": rows})


def _draw_trace(axes: Any, conditioned: Conditioned, curve: Curve, units: Shown) -> None:
    """Draw what only a record over time has: loops, what is left over cycle and travel; below all, what was found."""
    draw_loops(axes[1][0], conditioned, units)
    title(axes[1][0], "loops")
    draw_findings(axes[3][0], findings_lines(curve, units))
    title(axes[3][0], "found and taken out")
    axes[3][1].set_axis_off()


def _means(conditioned: Conditioned, curve: Curve, units: Shown) -> list[Panel]:
    """Return the small panels of what the curve leaves of a trace; none where nothing can be averaged."""
    if conditioned.rows is None or conditioned.layout == "peaks":
        return []
    return panels(conditioned.rows, conditioned.force - curve(conditioned.velocity), units)


def _draw_means(axes: Any, means: Sequence[Panel]) -> None:
    """Draw the small panels into a row of axes; one alone takes the room of all."""
    for ax, (words, draw) in zip(axes, means, strict=False):
        draw(ax)
        title(ax, f"the same {words}")
    for ax in axes[len(means) :]:
        ax.remove()
    if len(means) == 1:
        spec = axes[0].get_subplotspec()
        axes[0].set_subplotspec(spec.get_gridspec()[spec.rowspan.start, :])
