"""The trend of a shock over its sessions."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.show.plots.low_speeds import stretch_low_speeds
from dynoan.show.plots.style import (
    COMPRESSION,
    INK,
    REBOUND,
    axis_label,
    heading,
    in_units,
    label_axes,
    new_figure,
    series,
    shared_legend,
    title,
)
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.analysis.health.records import Health, Point
    from dynoan.jobs.health import HealthAnswer


def draw_force_trend(ax: Any, trend: Sequence[Point]) -> Any:
    """Draw the force of each session against the first, by direction."""
    dates = sorted({p.date for p in trend})
    for direction, style in (("compression", COMPRESSION), ("rebound", REBOUND)):
        mine = [p for p in trend if p.quantity == "force" and p.direction == direction]
        where = [dates.index(p.date) for p in mine]
        ax.errorbar(where, [p.value for p in mine], yerr=[p.half for p in mine], capsize=3, label=direction, **style)
    ax.axhline(0.0, color=INK, linewidth=0.9)
    ax.set_ylabel(axis_label("mean force against the first", "%"))
    return _name_dates(ax, dates)


def draw_newtons(ax: Any, trend: Sequence[Point], units: Shown = "metric") -> Any:
    """Draw gas force and friction of each session."""
    dates = sorted({p.date for p in trend})
    for i, (name, words) in enumerate((("gas", "gas force"), ("friction", "friction"))):
        mine = [p for p in trend if p.quantity == name]
        if mine:
            ax.errorbar([dates.index(p.date) for p in mine], in_units([p.value for p in mine], "force", units),
                        yerr=in_units([p.half for p in mine], "force", units), capsize=3, label=words,
                        **series(i + 2))  # fmt: skip
    ax.set_ylim(bottom=0.0)
    ax.set_ylabel(axis_label("force", "force", units))
    return _name_dates(ax, dates)


def _name_dates(ax: Any, dates: Sequence[str]) -> Any:
    ax.set_xticks(range(len(dates)), list(dates), rotation=0 if len(dates) < 4 else 30)
    ax.set_xlim(-0.4, len(dates) - 0.6)
    return ax


def draw_changes(ax: Any, found: Health, units: Shown = "metric") -> Any:
    """Draw the change of force from the first to the last session by speed, with its intervals."""
    for direction, style in (("compression", COMPRESSION), ("rebound", REBOUND)):
        mine = [c for c in found.changes if c.quantity == "force" and c.direction == direction]
        x = in_units([c.speed or 0.0 for c in mine], "velocity", units)
        y = np.array([c.value for c in mine])
        ax.errorbar(x, y, yerr=np.array([c.high for c in mine]) - y, capsize=3, label=direction, **style)
    ax.axhline(0.0, color=INK, linewidth=0.9)
    label_axes(ax, ("speed", "velocity"), (f"force against {found.first}", "%"), units)
    return stretch_low_speeds(ax, units)


def figure(answer: HealthAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of a shock's history: changes by speed, force, gas and friction over sessions."""
    found = answer.health
    drawn, axes = new_figure(250, 95, 1, 3)
    draw_changes(axes[0], found, units)
    title(axes[0], f"{found.last}, by speed")
    draw_force_trend(axes[1], found.trend)
    title(axes[1], "force over time")
    draw_newtons(axes[2], found.trend, units)
    title(axes[2], "gas and friction over time")
    shared_legend(drawn, *axes[1:])
    return heading(drawn, f"{answer.question.what}: {found.verdict}")
