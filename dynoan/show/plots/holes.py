"""Anti-squat against travel for each choice of holes, and the launch with each."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dynoan.jobs.launch import LaunchAnswer
from dynoan.show.plots import style
from dynoan.show.plots.launch import draw_rise
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.launch.holes import HolesAnswer


def draw_antisquat(ax: Any, answer: HolesAnswer, units: Shown = "metric") -> Any:
    """Draw anti-squat against how far body and axle are apart."""
    for i, hole in enumerate(answer.holes):
        apart = style.in_units(-hole.links.travel, "length", units)
        ax.plot(apart, 100 * hole.antisquat, label=hole.label, **style.line(style.series(i)))
    ax.axhline(100.0, **(style.TARGET | {"linewidth": 1.1}))
    ax.axvline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    style.label_axes(ax, ("body up from ride height", "length"), ("anti-squat", "%"), units)
    return style.title(ax, f"{answer.car.name}: anti-squat")


def figure(answer: HolesAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of the holes: anti-squat, and what nose and rear do with each on the first surface."""
    from dataclasses import replace

    found = () if answer.launches is None else answer.launches.found
    runs = [
        replace(one.answer.runs[0], label=hole.label)
        for one, hole in zip(found, answer.holes, strict=False)
        if isinstance(one.answer, LaunchAnswer)
    ]
    drawn, axes = style.new_figure(230 if runs else 110, 90, cols=3 if runs else 1, squeeze=False)
    draw_antisquat(axes[0, 0], answer, units)
    if runs:
        for ax, axle in zip(axes[0, 1:], ("front", "rear"), strict=True):
            draw_rise(ax, runs, axle, units)
            style.title(ax, f"{ax.get_title(loc='left')}, {runs[0].surface}")
    style.shared_legend(drawn, axes[0, 0])
    return drawn
