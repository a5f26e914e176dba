"""What is on the car and what was chosen, as damping ratio against velocity, with what is wanted."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

import numpy as np

from dynoan.show.plots import style
from dynoan.show.plots.ratio import draw_ratio
from dynoan.units import Shown

if TYPE_CHECKING:
    from dynoan.model.car import Corner
    from dynoan.model.curve import Curve


class Panel(Protocol):
    """What one panel shows."""

    @property
    def title(self) -> str:
        """Heading."""

    @property
    def lines(self) -> tuple[tuple[str, Corner, Curve], ...]:
        """Label, corner and curve of each line."""

    @property
    def wanted(self) -> tuple[tuple[float, float], ...]:
        """Pairs of (signed velocity [m/s], ratio)."""


def draw_choice(ax: Any, panel: Panel, units: Shown = "metric") -> Any:
    """Draw one place: its lines, their bands, and what is wanted there."""
    draw_ratio(ax, panel.lines, panel.wanted, units)
    return style.title(ax, panel.title)


def picture(path: Path, panels: Sequence[Panel], units: Shown = "metric") -> Path:
    """Write one panel a place, below one another. Return the path."""
    figure, axes = style.new_figure(180, 95 * len(panels), rows=len(panels))
    for ax, panel in zip(np.ravel(axes), panels, strict=True):
        draw_choice(ax, panel, units)
    return style.save(figure, path)
