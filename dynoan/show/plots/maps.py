"""Pictures of click maps: predicted curves among the tested ones, a fan over clicks, what a click is worth."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve
from dynoan.show.plots.low_speeds import low_speeds, stretch_low_speeds
from dynoan.show.plots.style import (
    GREY,
    PAPER,
    SOFT,
    band,
    in_units,
    label_axes,
    legend,
    line,
    new_figure,
    series,
    title,
    zero_lines,
)
from dynoan.units import Shown

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.asked.authority import Authority


def draw_predicted(
    ax: Any, curves: Sequence[Curve], tested: Sequence[Curve], units: Shown = "metric", labels: Sequence[str] = ()
) -> Any:
    """Draw predicted curves with their bands over the tested curves of the pack in grey."""
    for i, curve in enumerate(tested):
        v = curve.grid(60)
        ax.plot(in_units(v, "velocity", units), in_units(curve(v), "force", units), color=GREY, linewidth=1.0,
                label="tested settings" if i == 0 else None, zorder=1)  # fmt: skip
    for i, curve in enumerate(curves):
        v, style = curve.grid(120), series(i)
        low, high = curve.band(v)
        x = in_units(v, "velocity", units)
        name = labels[i] if i < len(labels) else curve.what
        ax.plot(x, in_units(curve(v), "force", units), **line(style), label=name, zorder=3)
        ax.fill_between(x, in_units(low, "force", units), in_units(high, "force", units), **band(style["color"]))
    zero_lines(ax)
    label_axes(ax, units=units)
    return legend(ax)


def draw_authority(ax: Any, authorities: Sequence[Authority], units: Shown = "metric", beside: int = 1) -> Any:
    """Draw what a click of each adjuster is worth over speed, compression to the right, rebound to the left.

    The looks of the first so many series mean something else in the picture (`beside`), and are not taken.
    """
    names = list(dict.fromkeys(a.adjuster for a in authorities))
    said: set[str] = set()
    for one in sorted(authorities, key=lambda a: (names.index(a.adjuster), not a.intended)):
        sign = 1.0 if one.direction == "compression" else -1.0
        crossed = "" if one.intended else " (cross-talk)"
        label = f"{one.adjuster}{crossed}{'' if one.known else ': not tested'}"
        look = series(beside + names.index(one.adjuster)) | _worth(one)
        ax.plot(in_units(sign * one.speeds, "velocity", units), one.percent, **look,
                label=None if label in said else label)  # fmt: skip
        said.add(label)
    ax.axvline(0.0, color=SOFT, linewidth=0.8)
    ax.set_ylim(bottom=min(0.0, ax.get_ylim()[0]))
    label_axes(ax, y=("force lost by a click out", "%"), units=units)
    title(stretch_low_speeds(ax, units), "what a click is worth")
    return legend(ax)


def _worth(one: Authority) -> dict[str, Any]:
    """Return how a line differs where a click acts the other way too, or where nobody tested it: thinner, hollow."""
    thin: dict[str, Any] = {} if one.intended and one.known else {"linewidth": 0.9}
    return thin | ({} if one.known else {"markerfacecolor": PAPER})


def prediction_figure(
    map: ClickMap, curves: Sequence[Curve], tested: Sequence[Curve], authorities: Sequence[Authority],
    units: Shown = "metric",
) -> Any:  # fmt: skip
    """Return a figure of predicted curves among the tested ones, beside what a click is worth."""
    figure, axes = new_figure(320, 110, 1, 3)
    for ax in axes[:2]:
        draw_predicted(ax, curves, tested, units)
    title(axes[0], "damping force, 95 % band")
    low_speeds(axes[1], units)
    if (again := axes[1].get_legend()) is not None:
        again.remove()
    draw_authority(axes[2], authorities, units, beside=len(curves))
    return figure
