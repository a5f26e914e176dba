"""A trial drawn: its runs in order, the day's drift under them, and b minus a with its limits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.model.results import result_factor
from dynoan.show.plots import style
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.trial.show import TrialShowAnswer

#: of the picture [mm]
WIDE, HIGH = 180, 95


def figure(answer: TrialShowAnswer, _units: Shown = "metric") -> Figure:
    """Return the runs in the order driven, and the difference beside."""
    drawn, (runs, difference) = style.new_figure(WIDE, HIGH, cols=2, gridspec_kw={"width_ratios": (3, 1)})
    draw_runs(runs, answer)
    draw_difference(difference, answer)
    trial = answer.found.trial
    return style.heading(drawn, trial.car, trial.surface, (trial.date or "")[:10])


def plain(setting: str) -> str:
    """Return a setting without the signs that the command line writes it with.

    >>> plain("rear=@lsr=16,hsr=4"), plain("front=gravel@lsc=2")
    ('rear lsr 16, hsr 4', 'front gravel lsc 2')
    """
    return setting.replace("=@", " ").replace("@", " ").replace("=", " ").replace(",", ", ")


def draw_runs(ax: Any, answer: TrialShowAnswer) -> Any:
    """Draw each run's result over its number, a and b apart, struck out ones hollow, and the drift of each day."""
    trial, judged = answer.found.trial, answer.found.judged
    factor = result_factor(trial.unit)
    for number, (side, words) in enumerate((("a", trial.a), ("b", trial.b))):
        look = style.series(number) | {"linestyle": "none", "markersize": 7.0}
        ax.plot(*_points(answer, side, struck=False), label=f"{side}: {plain(words)}", **look)
        ax.plot(*_points(answer, side, struck=True), fillstyle="none", **look)
    if any(run.struck for run in trial.runs):  # hollow in either colour
        ax.plot(
            [], [], "s", fillstyle="none", color=style.SOFT, markersize=7.0, label="hollow: struck out, not counted"
        )
    if judged is not None and judged.fit.difference is not None:
        base = np.array([trial.runs[n].result for n in trial.counted]) - judged.fit.left + judged.fit.values[0]
        ax.plot(np.array(trial.counted) + 1, base / factor, color=style.SOFT, linestyle=(0, (2, 2)),
                label="drift of the day, under a")  # fmt: skip
    ax.set_xticks(range(1, len(trial.runs) + 1))
    style.title(ax, trial.question or trial.name)
    style.legend(ax)
    return style.label_axes(ax, ("run", ""), (trial.measure or "result", trial.unit))


def _points(answer: TrialShowAnswer, side: str, *, struck: bool) -> tuple[list[float], list[float]]:
    trial = answer.found.trial
    runs = [(n, r) for n, r in enumerate(trial.runs, 1) if r.setting == side and bool(r.struck) == struck]
    return [float(n) for n, _ in runs], [r.result / result_factor(trial.unit) for _, r in runs]


def draw_difference(ax: Any, answer: TrialShowAnswer) -> Any:
    """Draw b minus a with its limits, and what is worth knowing."""
    trial, judged = answer.found.trial, answer.found.judged
    factor = result_factor(trial.unit)
    ax.axhline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    if trial.worth is not None:
        ax.axhspan(
            -trial.worth / factor,
            trial.worth / factor,
            zorder=0,
            label="too little to matter",
            **style.band(style.SOFT),
        )
    if judged is not None and judged.found is not None:
        found = judged.found
        ends = [[(found.difference - found.low) / factor], [(found.high - found.difference) / factor]]
        ax.errorbar([0.0], [found.difference / factor], ends, fmt="D", color=style.INK, capsize=6)
    ax.set(xlim=(-1.0, 1.0), xticks=[])
    style.title(ax, answer.found.verdict)
    return style.legend(style.label_axes(ax, ("", ""), ("b minus a", trial.unit)))
