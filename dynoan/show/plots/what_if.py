"""One picture of several cases: launches on their first surface, or damping ratios of each axle's left corner."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from dynoan.jobs.launch import LaunchAnswer
from dynoan.jobs.ratio import RatioAnswer
from dynoan.model.car import AXLES, CORNER_NAMES
from dynoan.show.plots import style
from dynoan.show.plots.launch import draw_driven_load, draw_rise
from dynoan.show.plots.ratio import draw_ratio, target_points
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.what_if import WhatIfAnswer


def figure(answer: WhatIfAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of the cases.

    Raises
    ------
    NotImplementedError
        If the job asked has no picture of its own kind to lay cases over one another.
    """
    first = answer.found[0].answer
    if isinstance(first, LaunchAnswer):
        return _launches(answer, units)
    if isinstance(first, RatioAnswer):
        return _ratios(answer, units)
    raise NotImplementedError(f"{first.job} has no picture of several cases")


def _launches(answer: WhatIfAnswer, units: Shown) -> Figure:
    """Return nose, rear and driven load on each surface, a row a surface."""
    found = [(one.case.label, one.answer) for one in answer.found if isinstance(one.answer, LaunchAnswer)]
    surfaces = list(dict.fromkeys(run.surface for run in found[0][1].runs))
    drawn, axes = style.new_figure(250, 75 * len(surfaces) + 10, rows=len(surfaces), cols=3, sharex=True, squeeze=False)
    for row, surface in zip(axes, surfaces, strict=True):
        runs = [
            replace(run, label=label if run.setting == a.runs[0].setting else f"{label}, {run.setting}")
            for label, a in found
            for run in a.runs
            if run.surface == surface
        ]
        draw_rise(row[0], runs, "front", units)
        draw_rise(row[1], runs, "rear", units)
        draw_driven_load(row[2], runs, found[0][1].half, units)
        for ax in row:
            style.title(ax, f"{ax.get_title()}, {surface}")
    style.shared_legend(drawn, axes[0, 2])
    return drawn


def _ratios(answer: WhatIfAnswer, units: Shown) -> Figure:
    found = [(one.case.label, one.answer) for one in answer.found if isinstance(one.answer, RatioAnswer)]
    drawn, axes = style.new_figure(180, 190, rows=2)
    for ax, axle in zip(axes, AXLES, strict=True):
        left = found[0][1].car.axle(axle)[0].name
        lines = [(label, a.car.corners[left], a.curves[left]) for label, a in found if left in a.curves]
        draw_ratio(ax, lines, target_points(found[0][1].car.targets.get(axle)), units)
        style.title(ax, f"{found[0][1].car.name}, {CORNER_NAMES[left]}")
    return drawn
