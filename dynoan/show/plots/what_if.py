"""One picture of several cases: launches on each surface, or damping ratios of each axle's left corner or place."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from dynoan.jobs.carry import CarryAnswer
from dynoan.jobs.choose import ChooseAnswer
from dynoan.jobs.launch import LaunchAnswer
from dynoan.jobs.ratio import RatioAnswer
from dynoan.model.car import AXLES, CORNER_NAMES, Corner
from dynoan.model.curve import Curve
from dynoan.show.plots import style
from dynoan.show.plots.choose import wanted_points
from dynoan.show.plots.launch import draw_driven_load, draw_rise
from dynoan.show.plots.ratio import draw_both, draw_ratio, new_rows, target_points
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.what_if import WhatIfAnswer


def figure(answer: WhatIfAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of the cases."""
    first = answer.found[0].answer
    if isinstance(first, LaunchAnswer):
        return _launches(answer, units)
    if isinstance(first, RatioAnswer):
        return _ratios(answer, units)
    return _settings(_chosen(answer) if isinstance(first, ChooseAnswer) else _carried(answer), units)


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
            style.title(ax, f"{ax.get_title(loc='left')}, {surface}")
    style.shared_legend(drawn, axes[0, 2])
    return style.heading(drawn, found[0][1].question.car)


def _ratios(answer: WhatIfAnswer, units: Shown) -> Figure:
    found = [(one.case.label, one.answer) for one in answer.found if isinstance(one.answer, RatioAnswer)]
    drawn, axes = style.new_figure(180, 190, rows=2)
    for ax, axle in zip(axes, AXLES, strict=True):
        left = found[0][1].car.axle(axle)[0].name
        lines = [(label, a.car.corners[left], a.curves[left]) for label, a in found if left in a.curves]
        draw_ratio(ax, lines, target_points(found[0][1].car.targets.get(axle)), units)
        style.title(ax, f"{found[0][1].car.name}, {CORNER_NAMES[left]}")
    return style.once(drawn)


class _Panel(NamedTuple):
    """The lines of one place."""

    lines: list[tuple[str, Corner, Curve]]
    wanted: list[tuple[float, float]]


def _chosen(answer: WhatIfAnswer) -> dict[str, _Panel]:
    """Return by place the best of every case, and what is wanted in the first; of each place its first corner."""
    panels: dict[str, _Panel] = {}
    for one in answer.found:
        assert isinstance(one.answer, ChooseAnswer)
        seen: set[str] = set()
        for place in one.answer.curves():
            if place.where not in seen:
                seen.add(place.where)
                panel = panels.setdefault(place.where, _Panel([], wanted_points(place)))
                panel.lines.append((f"{one.case.label}: {place.best.what}", place.corner, place.best))
    return panels


def _carried(answer: WhatIfAnswer) -> dict[str, _Panel]:
    """Return by place what is on the car, and what every case carries over."""
    panels: dict[str, _Panel] = {}
    for one in answer.found:
        assert isinstance(one.answer, CarryAnswer)
        for place in one.answer.curves():
            first = [(f"as it is: {place.was.what}", place.before, place.was)]
            panel = panels.setdefault(place.where, _Panel(first, []))
            panel.lines.append((f"{one.case.label}: {place.carried.what}", place.after, place.carried))
    return panels


def _settings(panels: dict[str, _Panel], units: Shown) -> Figure:
    drawn, axes = new_rows(len(panels))
    for row, (where, panel) in zip(axes, panels.items(), strict=True):
        draw_both(row, panel.lines, panel.wanted, units)
        corner = panel.lines[0][1].name
        style.title(row[0], where if where == corner else f"{where} ({CORNER_NAMES[corner]} drawn)")
    return style.once(drawn)
