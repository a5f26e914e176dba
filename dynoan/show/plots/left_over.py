"""Small panels of what a curve leaves of a trace: over the cycle and over travel, noise averaged out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.show.plots.style import COMPRESSION, INK, REBOUND, SOFT, band, in_units, label_axes, legend, line, series
from dynoan.units import Shown, shown

if TYPE_CHECKING:
    from dynoan.analysis.conditioning.left_open.structure import Left
    from dynoan.analysis.conditioning.samples.rows import Rows


#: title and drawing of a panel
Panel = tuple[str, Callable[[Any], Any]]


def panels(rows: Rows, rest: FloatArray, units: Shown = "metric") -> list[Panel]:
    """Return title and drawing of each panel that has something to show: a mean takes two cycles, places displacement.

    `rest` is what the curve leaves of each row. [N]
    """
    if rows.displacement is None:
        return []
    cycle, travel = _of_blocks(rows, rest), _of_directions(rows, rest)
    over_cycle = ("over the cycle: mean, with its error", lambda ax: draw_over_cycle(ax, cycle, units))
    over_travel = ("over travel: mean, with its error", lambda ax: draw_over_travel(ax, travel, units))
    return [*([over_cycle] if cycle else []), *([over_travel] if travel else [])]


def _of_blocks(rows: Rows, rest: FloatArray) -> list[tuple[float, Left]]:
    """Return what is left over the angle of the cycle, with the top speed [m/s], of blocks where means are known.

    Of many the slowest, a middling and the fastest.
    """
    from dynoan.analysis.conditioning.left_open.structure import over_cycle

    found = []
    for block in np.unique(rows.block):
        left = over_cycle(rows, rest, int(block))
        if np.isfinite(left.mean).any():
            found.append((float(np.max(np.abs(rows.velocity[rows.block == block]))), left))
    found.sort(key=lambda one: one[0])
    return [found[i] for i in sorted({0, len(found) // 2, len(found) - 1})] if found else []


def _of_directions(rows: Rows, rest: FloatArray) -> list[tuple[float, Left]]:
    """Return what is left over travel of each direction (1 compression, -1 rebound) where means are known."""
    from dynoan.analysis.conditioning.left_open.structure import over_travel

    found = [(way, over_travel(rows, rest, way)) for way in (1.0, -1.0)]
    return [one for one in found if np.isfinite(one[1].mean).any()]


def draw_over_cycle(ax: Any, found: Sequence[tuple[float, Left]], units: Shown = "metric") -> Any:
    """Draw what is left over the angle of the cycle, of blocks by their top speed [m/s]; shade its error."""
    for k, (top, left) in enumerate(found):
        _draw(ax, np.degrees(left.at), left, (line(series(2 * k)), f"to {shown('velocity', units).text(top)}"), units)
    ax.axhline(0.0, color=SOFT, linewidth=0.8, zorder=1)
    ax.set_xlim(0.0, 360.0)
    ax.set_xticks([0, 90, 180, 270, 360], ["extended", "compressing", "compressed", "rebounding", "extended"])
    label_axes(ax, ("", ""), ("left over", "force"), units)
    return legend(ax)


def draw_over_travel(ax: Any, found: Sequence[tuple[float, Left]], units: Shown = "metric") -> Any:
    """Draw what is left over travel, each direction by itself; shade its error."""
    for way, left in found:
        look, name = (COMPRESSION, "compression") if way > 0 else (REBOUND, "rebound")
        _draw(ax, in_units(left.at, "length", units), left, (line(look), name), units)
    ax.axhline(0.0, color=SOFT, linewidth=0.8, zorder=1)
    label_axes(ax, ("displacement from mid-stroke", "length"), ("left over", "force"), units)
    return legend(ax)


def _draw(ax: Any, at: FloatArray, left: Left, how: tuple[dict[str, Any], str], units: Shown) -> None:
    look, text = how
    ax.plot(at, in_units(left.mean, "force", units), **look, label=text)
    low, high = (in_units(left.mean + s * 2.0 * left.error, "force", units) for s in (-1.0, 1.0))
    ax.fill_between(at, low, high, **band(look.get("color", INK)))
