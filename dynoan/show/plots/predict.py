"""Predicted curves among the tested ones, beside what a click is worth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.show.plots.maps import prediction_figure
from dynoan.show.plots.style import heading
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.predict import PredictAnswer


def figure(answer: PredictAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of a prediction."""
    drawn: Figure = prediction_figure(answer.map, answer.curves, answer.tested, answer.worth, units)
    shocks, one = answer.map.shocks, answer.question.shock
    whose = f"shock {one or shocks[0]}" if one or len(shocks) == 1 else f"mean of {', '.join(shocks)}" if shocks else ""
    return heading(drawn, f"pack {answer.map.pack}", whose)
