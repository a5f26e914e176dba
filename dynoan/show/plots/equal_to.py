"""A setting and the best stand-in of each pack, over one another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.analysis.matching.compare import crossings
from dynoan.show.plots.compare import comparison_figure
from dynoan.show.plots.style import heading
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.equal_to import EqualToAnswer


def figure(answer: EqualToAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of a setting and of what stands in for it."""
    best = {one.found.pack: one for one in reversed(answer.stand_ins)}
    stand_ins = [one.curve for one in best.values()]
    curves = [answer.wanted.curve, *stand_ins]
    labels = [answer.wanted.label, *(curve.what for curve in stand_ins)]
    drawn: Figure = comparison_figure(labels, curves, crossings(curves), units)
    return heading(drawn, f"stand-ins for {answer.wanted.label}")
