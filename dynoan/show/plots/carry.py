"""What was on the car before a change and what is carried over, as damping ratio against velocity."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.model.car import CORNER_NAMES
from dynoan.show.plots import style
from dynoan.show.plots.ratio import draw_both, new_rows
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.carry import CarryAnswer


def figure(answer: CarryAnswer, units: Shown = "metric") -> Figure:
    """Return a row a place: before, and with what is carried, at all velocities and at low ones."""
    places = answer.curves()
    drawn, axes = new_rows(len(places))
    for row, place in zip(axes, places, strict=True):
        lines = [(f"{answer.car.name}: {place.was.what}", place.before, place.was),
                 (f"{answer.other.name}: {place.carried.what}", place.after, place.carried)]  # fmt: skip
        draw_both(row, lines, (), units)
        of = "" if place.where == place.after.name else f" ({CORNER_NAMES[place.after.name]} drawn)"
        style.title(row[0], f"{place.where}{of}")
    return style.heading(style.once(drawn), f"{answer.car.name} to {answer.other.name}")
