"""Logged launches over what the model has for them, and each value before and after."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.analysis.learning.logged import CHANNELS
from dynoan.show.plots import style
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.learn import LearnAnswer

_WORDS = {"front": "front shocks", "rear": "rear shocks", "acceleration": "acceleration", "speed": "speed"}
_KINDS = {"front": "length", "rear": "length", "acceleration": "acceleration", "speed": "speed"}
#: of the picture [mm]
WIDE, HIGH = 200, 150


def figure(answer: LearnAnswer, units: Shown = "metric") -> Figure:
    """Return logged and fitted channels of all launches, and the values in widths of their limits before."""
    logged = [n for n in CHANNELS if any(n in one.names for one in answer.launches)][:3]
    drawn, axes = style.new_figure(WIDE, HIGH, rows=2, cols=2)
    places = list(np.ravel(axes))
    for ax, name in zip(places, logged, strict=False):
        draw_channel(ax, answer, name, units)
    draw_values(places[len(logged)], answer)
    style.shared_legend(drawn, *places[: len(logged)])
    for ax in places[len(logged) + 1 :]:
        ax.set_visible(False)
    title = f"{answer.question.car}, {answer.question.surface}: {len(answer.launches)} launches"
    style.heading(drawn, title)
    return drawn


def draw_channel(ax: Any, answer: LearnAnswer, name: str, units: Shown = "metric") -> Any:
    """Draw a channel of each launch, points as logged and lines as fitted, against the time from the first."""
    first = True
    for n, launch in enumerate(answer.launches):
        channel = next((c for c in launch.channels if c.name == name), None)
        if channel is None:
            continue
        kind, look = _KINDS[name], style.line(style.series(n)) | {"linewidth": 1.3}
        fitted = answer.fit.predicted[n][CHANNELS.index(name)]
        ax.plot(launch.middles, style.in_units(channel.values, kind, units), ".", color=style.SOFT, markersize=3.0,
                label="logged" if first else "_")  # fmt: skip
        ax.plot(launch.middles, style.in_units(fitted, kind, units), label=launch.name, **look)
        first = False
    ax.axhline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    style.label_axes(ax, ("time", "s"), (_WORDS[name], _KINDS[name]), units)
    return style.title(ax, _WORDS[name].capitalize())


def draw_values(ax: Any, answer: LearnAnswer) -> Any:
    """Draw each value's limits after, in half-widths of its limits before; told ones in colour."""
    names = [v.before.key for v in answer.values]
    for row, v in enumerate(answer.values):
        low, mid, high = (
            (x - v.before.value) / v.before.half_width for x in (v.after.low, v.after.value, v.after.high)
        )
        colour = style.series(0)["color"] if v.told else style.GREY
        ax.plot([low, high], [row, row], color=colour, linewidth=2.2, solid_capstyle="butt")
        ax.plot([mid], [row], "o", color=colour, markersize=4.0)
    for edge in (-1.0, 1.0):
        ax.axvline(edge, **(style.TARGET | {"linewidth": 0.9}))
    ax.axvline(0.0, color=style.SOFT, linewidth=0.8, zorder=1)
    ax.set_yticks(range(len(names)), names, fontsize=7.0)
    ax.invert_yaxis()
    style.label_axes(ax, ("off the car's file, in its ±", ""), ("", ""))
    return style.title(ax, "Values: told in colour")
