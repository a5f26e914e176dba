"""The decay measured over the one predicted: the swings of a log, the fit through them, and the simulated corner's."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.analysis.bounce.predicted_band import swing_within
from dynoan.model.car import CORNER_NAMES
from dynoan.show.plots import style
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.analysis.bounce.limits import SwingFit
    from dynoan.jobs.bounce import BounceAnswer

#: of the picture [mm]
WIDE, HIGH = 180, 100


def figure(answer: BounceAnswer, units: Shown = "metric") -> Figure:
    """Return the swings from letting go on, each as a share of its push, with the fit and the prediction."""
    drawn, ax = style.new_figure(WIDE, HIGH)
    draw_swings(ax, answer, units)
    return style.heading(drawn, answer.question.car, Path(answer.question.log.path).name)


def draw_swings(ax: Any, answer: BounceAnswer, _units: Shown = "metric") -> Any:
    """Draw what was logged after each push as points, the fit and the prediction as lines; shares of the push."""
    measured = answer.measured
    for number, (y, fit) in enumerate(zip(measured.logged, measured.fitted, strict=True)):
        t = np.arange(len(y)) * measured.step
        top = measured.swings[number].peak
        look = style.line(style.series(0)) | {"linewidth": 1.4}
        ax.plot(t, y / top, ".", color=style.SOFT, markersize=2.5, label="logged" if number == 0 else "_")
        ax.plot(t, fit / top, label="measured, as fitted" if number == 0 else "_", **look)
    if answer.predicted is not None:
        _draw_prediction(ax, answer.predicted.fit)
    ax.axhline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    place = CORNER_NAMES.get(answer.question.place, answer.question.place)
    style.title(ax, f"{place}: {answer.verdict}" if answer.predicted else place)
    style.legend(ax)
    what = "acceleration upward" if answer.channel.acceleration else "travel"
    return style.label_axes(ax, ("time since the car was let go", "s"), (f"{what}, share of the push", ""))


def _draw_prediction(ax: Any, fit: SwingFit) -> None:
    look = style.line(style.series(1)) | {"linewidth": 1.8}
    t = np.arange(len(fit.fitted[0])) * fit.step
    low, high = (line / fit.swings[0].peak for line in swing_within(fit))
    ax.fill_between(t, low, high, label="predicted, what is open", **style.band(style.series(1)["color"]))
    ax.plot(t, fit.fitted[0] / fit.swings[0].peak, label="predicted", **look)
