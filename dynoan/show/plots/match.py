"""The curves of a pair in the setting they differ most in, beside their differences and the tolerance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.show.plots.compare import days_of, match_figure
from dynoan.show.plots.style import heading
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.match import MatchAnswer


def figure(answer: MatchAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of a pair."""
    worst = answer.worst
    drawn: Figure = match_figure(answer.labels, (worst.first.curve, worst.second.curve), worst.match, units)
    days = dict.fromkeys(days_of(one.sweeps) for one in (worst.first, worst.second))
    return heading(drawn, f"{answer.labels[0]} against {answer.labels[1]}", *days)
