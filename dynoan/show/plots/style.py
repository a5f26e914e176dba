"""How every picture looks: figures, colours, axis labels, saving. Nothing here touches matplotlib's global state.

Directions differ by dash and marker as well as by colour, and the colours by lightness as well as by hue, so that a
grey print and a colour-blind eye still tell them apart. Drawing functions take axes and give them back; they convert
data with `in_units` and name the axes with `label_axes`.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import matplotlib
import numpy as np
from cycler import cycler
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_rgba
from matplotlib.figure import Figure
from matplotlib.transforms import ScaledTranslation
from numpy.typing import ArrayLike

from dynoan.model.arrays import FloatArray
from dynoan.units import Shown, shown

MM_PER_INCH = 25.4
INK, SOFT, FAINT, PAPER = "#1c2733", "#5a6673", "#d5dbe0", "#ffffff"
#: compression and rebound, in every picture; nothing else is drawn in these two
PLUM, CLAY = "#5b2a6e", "#b9551a"
#: what is drawn beside what counts, such as other tests or every setting: still 3 to 1 against the paper
MIST, GREY = "#628ab2", "#7b8791"
#: of several curves, told apart by every eye, from the two above too, and each 3 to 1 against the paper; beyond this
#: many `series` starts over with the next dash
PALETTE = ("#4174d9", "#402c03", "#828c4d", "#032140", "#4d828c", "#2d0bd9")
DASHES: tuple[Any, ...] = ("-", (0, (5, 2)), (0, (1.2, 1.6)), (0, (6, 2, 1.2, 2)), (0, (9, 2.5)), (0, (3, 1.5)))
LETTER_PT, HANDLE_PT = 4.9, 40  #: of a legend in 8 pt: a letter, and what stands before and after its text [pt]
#: what axes win when the figure is laid out, over the place they are given at first; measured on two abreast [1]
LAID_OUT = 1.12
BELOW_PT = 34  #: from the axes to the legend below them: tick labels and the axis' name stand between [pt]
MARKERS = ("o", "s", "^", "D", "v", "P")

#: keyword arguments of a line (and of its markers) in each direction
COMPRESSION: dict[str, Any] = {"color": PLUM, "linestyle": "-", "marker": "o", "markersize": 4.0, "linewidth": 1.8}
REBOUND: dict[str, Any] = {
    "color": CLAY, "linestyle": (0, (5, 2)), "marker": "s", "markersize": 4.0, "markerfacecolor": PAPER,
    "linewidth": 1.8,
}  # fmt: skip
TINT = 0.18  #: how much of a band's colour covers the paper
#: keyword arguments of a target or limit line
TARGET: dict[str, Any] = {"color": INK, "linestyle": (0, (1, 2)), "linewidth": 1.6}

_RC: dict[str, Any] = {
    "font.family": ["DejaVu Sans"], "font.size": 9.0, "axes.titlesize": 10.0, "axes.titleweight": "bold",
    "axes.titlelocation": "left", "axes.labelsize": 9.0, "axes.labelcolor": INK, "axes.edgecolor": SOFT,
    "axes.linewidth": 0.8, "axes.spines.top": False, "axes.spines.right": False, "axes.grid": True,
    "axes.axisbelow": True, "grid.color": FAINT, "grid.linewidth": 0.6, "text.color": INK, "xtick.color": SOFT,
    "ytick.color": SOFT, "xtick.labelcolor": INK, "ytick.labelcolor": INK, "figure.facecolor": PAPER,
    "axes.facecolor": PAPER, "savefig.facecolor": PAPER, "axes.unicode_minus": True,
    "axes.prop_cycle": cycler(color=PALETTE),
}  # fmt: skip
_FIXED = {"svg.hashsalt": "dynoan", "pdf.fonttype": 42}


def in_style(extra: dict[str, Any] | None = None) -> Any:
    """Return a context in which matplotlib's settings are the project's, with some of one's own."""
    settings: Any = _RC | _FIXED | (extra or {})
    return matplotlib.rc_context(settings)


def series(i: int) -> dict[str, Any]:
    """Return the line style of the i-th of several curves: colour, dash and marker all differ."""
    n = len(PALETTE)
    return {
        "color": PALETTE[i % n], "linestyle": DASHES[(i + i // n) % len(DASHES)], "marker": MARKERS[i % len(MARKERS)],
        "markersize": 4.0, "linewidth": 1.7,
    }  # fmt: skip


def line(style: dict[str, Any]) -> dict[str, Any]:
    """Return a style without its markers, for a densely drawn line."""
    return {k: v for k, v in style.items() if not k.startswith("marker")}


def band(colour: str, tint: float = TINT) -> dict[str, Any]:
    """Return the keyword arguments of a band (`fill_between`): a tint, with an edge that stands out from the paper."""
    return {"facecolor": to_rgba(colour, tint), "edgecolor": colour, "linewidth": 0.4}


def new_figure(
    width_mm: float = 180, height_mm: float = 110, rows: int = 1, cols: int = 1, **kw: Any
) -> tuple[Figure, Any]:
    """Return a figure and its axes (one, or an array of `rows` × `cols`), in the project's style.

    Further keyword arguments go to ``Figure.subplots`` (``sharex``, ``gridspec_kw``, …).
    """
    with in_style():
        figure = Figure(figsize=(width_mm / MM_PER_INCH, height_mm / MM_PER_INCH), dpi=150, layout="constrained")
        FigureCanvasAgg(figure)
        axes = figure.subplots(rows, cols, **kw)
        for ax in np.ravel(axes):
            ax.tick_params(length=3, width=0.8)
    return figure, axes


def in_units(values: ArrayLike, kind: str, units: Shown = "metric") -> FloatArray:
    """Return SI values as the axis shows them; `kind` is one of `dynoan.units.shown`."""
    return np.asarray(values, dtype=float) / shown(kind, units).factor


def axis_label(name: str, kind: str, units: Shown = "metric") -> str:
    """Return "name [unit]"; a `kind` that `dynoan.units.shown` does not know is the unit itself, "" is none."""
    try:
        unit = shown(kind, units).unit
    except KeyError:
        unit = kind
    return f"{name} [{unit}]" if unit else name


def label_axes(
    ax: Any,
    x: tuple[str, str] = ("velocity", "velocity"),
    y: tuple[str, str] = ("force", "force"),
    units: Shown = "metric",
) -> Any:
    """Name both axes, each with its unit, from (name, kind of quantity), and return the axes."""
    ax.set(xlabel=axis_label(*x, units), ylabel=axis_label(*y, units))
    return ax


def zero_lines(ax: Any) -> Any:
    """Draw the axes through zero that a signed force-velocity picture is read against."""
    ax.axhline(0.0, color=SOFT, linewidth=0.8, zorder=1)
    ax.axvline(0.0, color=SOFT, linewidth=0.8, zorder=1)
    return ax


def title(ax: Any, text: str) -> Any:
    """Head the axes, flush left, and return them."""
    ax.set_title(text, loc="left", fontsize=10.0, fontweight="bold", color=INK)
    return ax


def heading(figure: Figure, *parts: str | None) -> Figure:
    """Head a whole figure with what it is of, such as car, surface and date; what is not known is left out."""
    text = ", ".join(part for part in parts if part)
    figure.suptitle(text, x=0.01, ha="left", fontsize=11.0, fontweight="bold", color=INK)
    return figure


def legend(ax: Any, **kw: Any) -> Any:
    """Add the legend, if anything has a label, below the axes, where it hides no data."""
    handles, labels = ax.get_legend_handles_labels()
    if handles:
        below = ax.transAxes + ScaledTranslation(0, -BELOW_PT / 72, ax.figure.dpi_scale_trans)
        ax.legend(handles, labels, fontsize=8, frameon=False, handlelength=3.2, columnspacing=1.0, loc="upper left",
                  borderaxespad=0.0, bbox_to_anchor=(0.0, 0.0), bbox_transform=below,
                  ncols=_columns(ax, labels), **kw)  # fmt: skip
    return ax


def _columns(ax: Any, labels: Sequence[str]) -> int:
    """Return how many columns of a legend fit below one axes, whose place in the figure is nearly known by now."""
    room = LAID_OUT * ax.get_position().width * ax.figure.get_figwidth() * 72
    entry = max(map(len, labels)) * LETTER_PT + HANDLE_PT
    return int(np.clip(room // entry, 1, len(labels)))


def shared_legend(figure: Figure, *axes: Any) -> None:
    """Put one legend of the lines of some axes below all of a figure's, each label once."""
    named = {label: handle for ax in axes for handle, label in zip(*ax.get_legend_handles_labels(), strict=True)}
    columns = int(np.clip(np.ceil(len(named) / 2), 2, 3))
    figure.legend(list(named.values()), list(named), loc="outside lower center", ncols=columns, fontsize=8,
                  frameon=False, handlelength=3.2)  # fmt: skip


def once(figure: Figure) -> Figure:
    """Put one legend below a figure whose axes' legends all say the same."""
    found = [legend for ax in figure.axes if (legend := ax.get_legend()) is not None]
    said = {tuple(text.get_text() for text in legend.get_texts()) for legend in found}
    if len(found) > 1 and len(said) == 1:
        shared_legend(figure, found[0].axes)
        for legend in found:
            legend.remove()
    return figure


def knee_mark(ax: Any, scale: float = 1.0) -> Any:
    """Say in the legend, whose markers are drawn larger by a scale, what the strokes across a curve are."""
    ax.plot([], [], linestyle="none", marker="|", markersize=11 / scale, markeredgewidth=1.8, color=INK,
            label="knee: the slope changes")  # fmt: skip
    return ax
