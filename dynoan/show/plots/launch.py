"""Pictures of a launch: what the body, the driven tyres and the shocks do."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from dynoan.show.plots import style
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.analysis.launch.compare import LaunchRun
    from dynoan.analysis.launch.model import HalfCar
    from dynoan.jobs.launch import LaunchAnswer


def draw_rise(ax: Any, runs: Sequence[LaunchRun], axle: str, units: Shown = "metric") -> Any:
    """Draw the rise of the body over an axle against time."""
    for i, run in enumerate(runs):
        shade(ax, run, i, f"{axle}_rise_m", ("length", units))
        values = style.in_units(run.trace[f"{axle}_rise_m"], "length", units)
        ax.plot(run.trace["time_s"], values, label=run.label, **style.line(style.series(i)))
    ax.axhline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    style.label_axes(ax, ("time", "s"), (f"rise over {axle} axle", "length"), units)
    return style.title(ax, "Nose" if axle == "front" else "Rear")


def shade(ax: Any, run: LaunchRun, i: int, name: str, shown: tuple[str, Shown]) -> None:
    """Shade what curves and car leave open of one line of a run."""
    if name in run.trace_low:
        low, high = (style.in_units(of[name], *shown) for of in (run.trace_low, run.trace_high))
        words = None if i else "left open by curves and car (95 %)"
        ax.fill_between(run.trace["time_s"], low, high, label=words, **style.band(style.series(i)["color"]))


def draw_driven_load(ax: Any, runs: Sequence[LaunchRun], half: HalfCar, units: Shown = "metric") -> Any:
    """Draw the load of the driven tyres against time, with the load at rest."""
    front, rear, static, _ = half.driven_loads
    for i, run in enumerate(runs):
        for driven, axle in ((front, "front"), (rear, "rear")):
            if driven and not (front and rear):  # of one axle: the bands of two do not add
                shade(ax, run, i, f"{axle}_load_n", ("force", units))
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
        shade(ax, run, i, f"{axle}_shock_velocity_m_s", ("velocity", units))
        look = style.line(style.series(i)) | {"linewidth": 1.0}
        ax.plot(run.trace["time_s"], values, label=run.label, **look)
    ax.axhline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    style.label_axes(ax, ("time", "s"), ("shock velocity", "velocity"), units)
    return style.title(ax, f"{axle.capitalize()} shocks, compression up")


def shocks_axle(runs: Sequence[LaunchRun], driven: str) -> str:
    """Return the axle whose shocks tell the runs apart most; where none do, the driven one, else the rear."""
    usual, other = ("front", "rear") if driven == "front" else ("rear", "front")

    def apart(axle: str) -> float:
        found: dict[str, list[float]] = {}
        for run in runs:
            found.setdefault(run.surface, []).append(run.metrics[f"{axle}_shock_rms_m_s"])
        return max(max(speeds) - min(speeds) for speeds in found.values())

    return other if apart(other) > apart(usual) else usual


def figure(answer: LaunchAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of runs compared."""
    drawn, axes = style.new_figure(200, 150, rows=2, cols=2, sharex=True)
    draw_rise(axes[0, 0], answer.runs, "front", units)
    draw_rise(axes[0, 1], answer.runs, "rear", units)
    draw_driven_load(axes[1, 0], answer.runs, answer.half, units)
    draw_shock_velocity(axes[1, 1], answer.runs, shocks_axle(answer.runs, answer.half.driven), units)
    for ax in axes[0]:
        ax.tick_params(labelbottom=True)
    style.shared_legend(drawn, axes[1, 0])
    return style.heading(drawn, answer.question.car, *dict.fromkeys(run.surface for run in answer.runs))
