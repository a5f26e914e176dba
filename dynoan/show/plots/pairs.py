"""The differences of each pair of a batch, a panel a pair."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.show.plots.compare import draw_match
from dynoan.show.plots.style import legend, new_figure, title
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.match.pairs import PairsAnswer

#: of a panel [mm]
WIDE, HIGH = 180, 75


def figure(answer: PairsAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of a batch: of each pair the setting it differs most in."""
    count = len(answer.pairs)
    drawn, axes = new_figure(WIDE, HIGH * count, rows=count)
    panels = [axes] if count == 1 else list(axes)
    for ax, pair in zip(panels, answer.pairs, strict=True):
        draw_match(ax, max(pair.matches, key=lambda m: abs(m.worst.difference)), units)
        title(ax, f"{pair.first} with {pair.second}: {pair.verdict}")
    legend(panels[-1])
    return drawn
