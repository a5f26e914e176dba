"""The report's pictures: a pack's fan of clicks, tested curves, packs over one another, ratios against velocity."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from dynoan.analysis.clickmap.asked.authority import Authority
from dynoan.model.adjusters import in_order
from dynoan.model.car import Corner, Targets
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.model.shock import ADJUSTERS, Shock
from dynoan.show.low_speed import LOW_SPEED
from dynoan.show.plots import low_speeds, style
from dynoan.show.plots.force_over_velocity import draw_curve
from dynoan.show.plots.maps import draw_authority
from dynoan.show.plots.ratio import draw_both, target_points
from dynoan.units import Shown, shown

GROUPS = (("lsc", "lsr", "c", "r", "cr"), ("hsc", "hsr"))
POINTS = 61


def fan(click_map: ClickMap, counting: Shock, units: Shown) -> Any:
    """Return the curves of a pack as its low-speed, then its high-speed adjusters go from closed to open."""
    names = [a.name for a in click_map.adjusters]
    groups = [g for g in ([n for n in names if n in group] for group in GROUPS) if g]
    near = bool(groups) and groups[0][0] in GROUPS[0]  # these act at low speeds, which are then shown large
    panels = groups * 2 if near and len(groups) == 1 else groups
    figure, axes = style.new_figure(180, 76, cols=max(len(panels), 1), squeeze=False)
    for ax, group in zip(axes[0], panels, strict=True):
        _fan_panel(ax, click_map, counting, group, units)
    if near:
        low_speeds.low_speeds(axes[0][0], units)
        style.title(axes[0][0], f"{_kind(panels[0])}, to {LOW_SPEED[units]} {shown('velocity', units).unit}")
    return figure


def _fan_panel(ax: Any, click_map: ClickMap, counting: Shock, group: Sequence[str], units: Shown) -> None:
    base = click_map.complete({})
    last = {a.name: a.clicks for a in click_map.adjusters}
    v = _velocities(click_map)
    for i, share in enumerate((0.0, 0.25, 0.5, 0.75, 1.0)):
        turned = {name: round(share * last[name]) for name in group}
        force, _ = click_map.force(base | turned, v)
        shown_clicks = counting.to_counted(turned)
        label = ", ".join(f"{name} {click}" for name, click in in_order(shown_clicks).items())
        ax.plot(style.in_units(v, "velocity", units), style.in_units(force, "force", units), label=label,
                **style.line(style.series(i)))  # fmt: skip
    style.zero_lines(style.label_axes(ax, units=units))  # each panel has a scale of its own
    style.legend(style.title(ax, _kind(group)))


def _kind(group: Sequence[str]) -> str:
    words = {ADJUSTERS[n].split(" ")[0] for n in group}
    if len(words) > 1 and set(DIRECTIONS) <= words:
        return "All clicks"
    return f"{' and '.join(sorted(words)).capitalize()} clicks"


def _velocities(click_map: ClickMap) -> Any:
    """Return velocities to draw at, close together where they are low and force bends."""
    share = np.linspace(-1.0, 1.0, POINTS)
    return np.sign(share) * share**2 * np.where(share < 0, click_map.rebound.top_speed, click_map.compression.top_speed)


def tested(curves: Sequence[tuple[str, Curve]], units: Shown) -> Any:
    """Return tested curves with their bands and knees, each drawn as far as its data go."""
    figure, axes = style.new_figure(180, 95, cols=2)
    for ax in axes:
        for i, (label, curve) in enumerate(curves):
            draw_curve(ax, curve, units, label, i)
    return _with_low_speeds(figure, axes, units)


def _with_low_speeds(figure: Any, axes: Any, units: Shown) -> Any:
    """Return a figure whose second panel shows the low speeds of the first large, with one legend."""
    style.title(axes[0], "all speeds")
    low_speeds.low_speeds(axes[1], units)
    style.label_axes(axes[1], units=units)
    style.shared_legend(figure, axes[0])
    return figure


def authority(worth: Sequence[Authority], units: Shown) -> Any:
    """Return what a click of each adjuster is worth over velocity."""
    figure, ax = style.new_figure(180, 72)
    draw_authority(ax, worth, units)
    return figure


def overlay(maps: Sequence[tuple[str, ClickMap]], units: Shown) -> Any:
    """Return packs over one another, each with its band, its adjusters where most of its tests sat."""
    figure, axes = style.new_figure(180, 95, cols=2)
    for ax in axes:
        _draw_packs(ax, maps, units)
    return _with_low_speeds(figure, axes, units)


def _draw_packs(ax: Any, maps: Sequence[tuple[str, ClickMap]], units: Shown) -> None:
    for i, (label, click_map) in enumerate(maps):
        v = _velocities(click_map)
        force, half = click_map.force(click_map.complete({}), v)
        look = style.line(style.series(i))
        x = style.in_units(v, "velocity", units)
        ax.fill_between(x, style.in_units(force - half, "force", units), style.in_units(force + half, "force", units),
                        **style.band(look["color"]))  # fmt: skip
        ax.plot(x, style.in_units(force, "force", units), label=label, **look)
    style.zero_lines(style.label_axes(ax, units=units))


def ratios(corners: Sequence[tuple[Corner, Curve]], targets: Targets | None, units: Shown) -> Any:
    """Return the damping ratios of an axle's corners against velocity, both directions, with the targets."""
    figure, axes = style.new_figure(180, 78, cols=2, gridspec_kw={"width_ratios": [5, 3]})
    draw_both(axes, [(corner.name.upper(), corner, curve) for corner, curve in corners], target_points(targets), units)
    style.label_axes(axes[0], ("velocity at the shock", "velocity"), ("damping ratio", ""), units)
    axes[1].set_ylabel("")
    return figure
