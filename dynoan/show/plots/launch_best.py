"""The picture of a search: what all clicks of an axle can reach, and the launch as on the car and with the best."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dynoan.jobs.launch.figures import BY_KEY
from dynoan.show.plots import style
from dynoan.show.plots.launch import draw_driven_load, draw_rise
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.analysis.launch.search import ClickSearch
    from dynoan.jobs.launch.best import BestClicksAnswer

#: a shorter name for the axis than the figure's own words, where those are long
_SHORT = {
    "driven_load_rms_n": "unsteadiness of load",
    "level_nose_rise_rate_m_s": "fastest nose rise",
    "level_body_lift_m": "highest rise of the body",
}


def figure(answer: BestClicksAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of a search."""
    drawn, axes = style.new_figure(200, 150, rows=2, cols=2)
    draw_trade_off(axes[0, 0], answer.search, units)
    draw_rise(axes[0, 1], answer.runs, "front", units)
    draw_rise(axes[1, 1], answer.runs, "rear", units)
    draw_driven_load(axes[1, 0], answer.runs, answer.half, units)
    style.shared_legend(drawn, axes[0, 0], axes[1, 0])
    surfaces = dict.fromkeys(run.surface for run in answer.runs)
    return style.heading(drawn, answer.question.car, *surfaces, f"clicks of the {answer.axle} axle")


def draw_trade_off(ax: Any, search: ClickSearch, units: Shown = "metric") -> Any:
    """Draw every setting by objective and counterpart, the trade-off line, the best and what is on the car."""
    measures = [BY_KEY[key] for key in search.axes]
    x, y = (search.figures[m.key] / m.display(units).factor for m in measures)
    ax.scatter(x, y, s=6, color=style.MIST, linewidths=0, label="every setting", rasterized=True)
    front = search.front
    several = "nothing beats these" if len(front) > 1 else None
    ax.plot(x[front], y[front], color=style.INK, linewidth=1.4, label=several)
    ax.plot(x[search.best], y[search.best], "*", color=style.INK, markersize=13, label="best setting", zorder=5)
    if search.now is not None:
        ax.plot(x[search.now], y[search.now], "s", color=style.INK, markersize=6, label="setting on the car", zorder=5)
    along, up = ((_SHORT.get(m.key, m.words), m.kind or m.unit) for m in measures)
    style.label_axes(ax, along, up, units)
    return style.title(ax, f"{len(x)} settings")
