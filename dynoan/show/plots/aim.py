"""The launch as on the car and with the clicks chosen for aims."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.show.plots import style
from dynoan.show.plots.launch import draw_rise, draw_shock_velocity
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.aim import AimAnswer


def figure(answer: AimAnswer, units: Shown = "metric") -> Figure:
    """Return nose, rear and front shocks, before and after."""
    drawn, axes = style.new_figure(240, 85, cols=3)
    draw_rise(axes[0], answer.runs, "front", units)
    draw_rise(axes[1], answer.runs, "rear", units)
    draw_shock_velocity(axes[2], answer.runs, "front", units)
    style.shared_legend(drawn, axes[0])
    return style.heading(drawn, answer.car.name, answer.surface, "as on the car and with the clicks chosen")
