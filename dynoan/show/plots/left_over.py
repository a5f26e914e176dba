"""Small panels of what a curve leaves of a trace: over the cycle and over travel, noise averaged out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.show.plots.style import COMPRESSION, INK, REBOUND, SOFT, band, in_units, label_axes, legend, line, series
from dynoan.units import Shown, shown

if TYPE_CHECKING:
    from dynoan.analysis.conditioning.left_open.structure import Left
    from dynoan.analysis.conditioning.samples.rows import Rows


def draw_over_cycle(ax: Any, rows: Rows, rest: FloatArray, units: Shown = "metric") -> Any:
    """Draw what is left over the angle of the cycle, the slowest, a middling and the fastest block; shade its error.

    `rest` is what the curve leaves of each row. [N]
    """
    from dynoan.analysis.conditioning.left_open.structure import over_cycle

    if rows.displacement is None:
        ax.text(0.5, 0.5, "no displacement was recorded", ha="center", va="center", transform=ax.transAxes, color=SOFT)
        return ax
    blocks = np.unique(rows.block)
    tops = np.array([float(np.max(np.abs(rows.velocity[rows.block == b]))) for b in blocks])
    order = np.argsort(tops)
    for k, i in enumerate(sorted({0, len(order) // 2, len(order) - 1})):
        left = over_cycle(rows, rest, int(blocks[order[i]]))
        look = line(series(2 * k))
        top = shown("velocity", units).text(float(tops[order[i]]))
        _draw(ax, np.degrees(left.at), left, (look, f"to {top}"), units)
    ax.axhline(0.0, color=SOFT, linewidth=0.8, zorder=1)
    ax.set_xlim(0.0, 360.0)
    ax.set_xticks([0, 90, 180, 270, 360], ["extended", "compressing", "compressed", "rebounding", "extended"])
    label_axes(ax, ("", ""), ("point minus curve", "force"), units)
    return legend(ax)


def draw_over_travel(ax: Any, rows: Rows, rest: FloatArray, units: Shown = "metric") -> Any:
    """Draw what is left over travel, each direction by itself; shade its error."""
    from dynoan.analysis.conditioning.left_open.structure import over_travel

    for way, look, name in ((1.0, COMPRESSION, "compression"), (-1.0, REBOUND, "rebound")):
        left = over_travel(rows, rest, way)
        _draw(ax, in_units(left.at, "length", units), left, (line(look), name), units)
    ax.axhline(0.0, color=SOFT, linewidth=0.8, zorder=1)
    label_axes(ax, ("displacement from mid-stroke", "length"), ("point minus curve", "force"), units)
    return legend(ax)


def _draw(ax: Any, at: FloatArray, left: Left, how: tuple[dict[str, Any], str], units: Shown) -> None:
    look, text = how
    ax.plot(at, in_units(left.mean, "force", units), **look, label=text)
    low, high = (in_units(left.mean + s * 2.0 * left.error, "force", units) for s in (-1.0, 1.0))
    ax.fill_between(at, low, high, **band(look.get("color", INK)))
