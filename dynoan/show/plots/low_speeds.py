"""Axes on which low speeds have room: cut to them, or drawn along the square root."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from dynoan.model.arrays import FloatArray
from dynoan.show.low_speed import LOW_SPEED
from dynoan.show.plots.style import title
from dynoan.units import Shown, shown


def low_speeds(ax: Any, units: Shown = "metric") -> Any:
    """Show of a picture over signed velocity only the low speeds, where low-speed clicks act, and what lies there."""
    top, drawn = LOW_SPEED[units], [one for one in ax.get_lines() if one.get_transform() == ax.transData]
    ax.set_xlim(-top, top)
    values = [y for one in drawn for y in _within(one.get_xdata(), one.get_ydata(), top)]
    if values:
        low, high = min(values), max(values)
        ax.set_ylim(low - 0.06 * (high - low or 1.0), high + 0.06 * (high - low or 1.0))
    return title(ax, f"low speeds, to {top} {shown('velocity', units).unit}")


#: a top speed that a tick lies so little beyond has that tick: 19.8 in/s is nearly 20
HARDLY = 1.02


def stretch_low_speeds(ax: Any, units: Shown = "metric") -> Any:
    """Draw speeds, which the axes hold already, along their square root, so that low ones take more room; say so."""
    first, last = ax.dataLim.intervalx
    return stretched(ax, first, last, units)


def stretched(ax: Any, first: float, last: float, units: Shown = "metric") -> Any:
    """Draw speeds from a first to a last one, in shown units, along their square root; say so."""
    low, high = (np.sign(end) * np.sqrt(abs(end)) for end in (first, last))
    top = max(abs(low), abs(high)) ** 2 * HARDLY
    if top <= LOW_SPEED[units]:
        return ax
    ax.set_xscale("function", functions=(lambda v: np.sign(v) * np.sqrt(np.abs(v)), lambda s: np.sign(s) * s**2))
    margin = 0.04 * (high - min(low, 0.0))
    left, right = (low - margin if low < 0 else 0.0), high + margin
    ax.set_xlim(np.sign(left) * left**2, right**2)
    speeds = [LOW_SPEED[units] * times for times in (0.25, 1, 2.5, 5, 10, 20) if LOW_SPEED[units] * times <= top]
    ax.set_xticks([*(-v for v in reversed(speeds) if low < 0), 0, *speeds])
    ax.minorticks_off()
    ax.set_xlabel(f"{ax.get_xlabel()}, low ones drawn larger")
    return ax


def _within(x: ArrayLike, y: ArrayLike, top: float) -> FloatArray:
    along, values = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    if len(along) != len(values) or len(along) < 2:
        return np.empty(0)
    return np.asarray(values[(np.abs(along) <= top) & np.isfinite(values)])
