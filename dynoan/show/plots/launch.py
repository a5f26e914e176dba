"""Pictures of a launch: what the body and the driven tyres do, and what all clicks of an axle can reach."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.show.plots import style
from dynoan.units import Shown

if TYPE_CHECKING:
    from dynoan.analysis.launch.compare import LaunchRun
    from dynoan.analysis.launch.model import Half
    from dynoan.analysis.launch.search import Search

#: kind of quantity of a figure's name, and the name on the axis
_AXES = {
    "driven_load_rms_n": ("force", "unsteadiness of driven load, rms"),
    "level_nose_rise_rate_m_s": ("velocity", "fastest nose rise from the drive"),
    "level_body_lift_m": ("length", "highest rise of the body from the drive"),
}


def draw_rise(ax: Any, runs: Sequence[LaunchRun], axle: str, units: Shown = "metric") -> Any:
    """Draw the rise of the body over an axle against time."""
    for i, run in enumerate(runs):
        values = style.in_units(run.trace[f"{axle}_rise_m"], "length", units)
        ax.plot(run.trace["time_s"], values, label=run.label, **style.line(style.series(i)))
    ax.axhline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    style.label_axes(ax, ("time", "s"), (f"rise over {axle} axle", "length"), units)
    return style.title(ax, "Nose" if axle == "front" else "Rear")


def draw_driven_load(ax: Any, runs: Sequence[LaunchRun], half: Half, units: Shown = "metric") -> Any:
    """Draw the load of the driven tyres against time, with the load at rest."""
    front, rear, static, _ = half.driven_loads
    for i, run in enumerate(runs):
        load = front * run.trace["front_load_n"] + rear * run.trace["rear_load_n"]
        ax.plot(run.trace["time_s"], style.in_units(load, "force", units), label=run.label,
                **(style.line(style.series(i)) | {"linewidth": 1.2}))  # fmt: skip
    rest = style.in_units(static, "force", units)
    ax.axhline(rest, **(style.TARGET | {"linewidth": 1.1}), label="at rest")
    ax.set_ylim(bottom=0.0)
    style.label_axes(ax, ("time", "s"), ("load of driven tyres", "force"), units)
    return style.title(ax, "Driven tyres")


def draw_shock_velocity(ax: Any, runs: Sequence[LaunchRun], axle: str, units: Shown = "metric") -> Any:
    """Draw the velocity of an axle's shocks against time."""
    for i, run in enumerate(runs):
        values = style.in_units(run.trace[f"{axle}_shock_velocity_m_s"], "velocity", units)
        look = style.line(style.series(i)) | {"linewidth": 1.0}
        ax.plot(run.trace["time_s"], values, label=run.label, **look)
    ax.axhline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    style.label_axes(ax, ("time", "s"), ("velocity, compression up", "velocity"), units)
    return style.title(ax, f"{axle.capitalize()} shocks")


def draw_trade_off(ax: Any, search: Search, units: Shown = "metric") -> Any:
    """Draw every setting by objective and counterpart, the trade-off line, the best and what is on the car."""
    (aim, x_name), (against, y_name) = (_AXES[name] for name in search.axes)
    x, y = (
        style.in_units(search.figures[name], kind, units)
        for name, kind in zip(search.axes, (aim, against), strict=True)
    )
    ax.scatter(x, y, s=6, color=style.MIST, linewidths=0, label="every setting", rasterized=True)
    front = search.front
    ax.plot(x[front], y[front], **(style.line(style.COMPRESSION) | {"linewidth": 1.4}), label="nothing beats these")
    ax.plot(x[search.best], y[search.best], "*", color=style.CLAY, markersize=13, label="best", zorder=5)
    if search.now is not None:
        ax.plot(x[search.now], y[search.now], "s", color=style.INK, markersize=6, label="as on the car", zorder=5)
    style.label_axes(ax, (x_name, aim), (y_name, against), units)
    style.legend(ax, loc="best")
    return style.title(ax, f"{len(x)} settings")


def picture(path: Path, runs: Sequence[LaunchRun], half: Half, units: Shown = "metric") -> Path:
    """Write the picture of runs compared and return its path."""
    figure, axes = style.new_figure(200, 150, rows=2, cols=2, sharex=True)
    draw_rise(axes[0, 0], runs, "front", units)
    draw_rise(axes[0, 1], runs, "rear", units)
    draw_driven_load(axes[1, 0], runs, half, units)
    draw_shock_velocity(axes[1, 1], runs, "front" if half.driven == "front" else "rear", units)
    _shared_legend(figure, axes[1, 0])
    return style.save(figure, path)


def search_picture(
    path: Path, search: Search, runs: tuple[LaunchRun, LaunchRun], half: Half, units: Shown = "metric"
) -> Path:
    """Write the picture of a search, with the launch as on the car and with the best, and return its path."""
    figure, axes = style.new_figure(200, 150, rows=2, cols=2)
    draw_trade_off(axes[0, 0], search, units)
    draw_rise(axes[0, 1], runs, "front", units)
    draw_rise(axes[1, 1], runs, "rear", units)
    draw_driven_load(axes[1, 0], runs, half, units)
    _shared_legend(figure, axes[1, 0])
    return style.save(figure, path)


def _shared_legend(figure: Any, ax: Any) -> None:
    handles, labels = ax.get_legend_handles_labels()
    columns = int(np.clip(np.ceil(len(labels) / 2), 2, 3))
    figure.legend(handles, labels, loc="outside lower center", ncols=columns, fontsize=8, frameon=False,
                  handlelength=3.2)  # fmt: skip
