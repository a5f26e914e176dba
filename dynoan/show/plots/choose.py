"""What is on the car and what was chosen, as damping ratio against velocity, with what is wanted."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from dynoan.model.car import CORNER_NAMES
from dynoan.show.plots import style
from dynoan.show.plots.ratio import draw_both, new_rows
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.choose import ChooseAnswer
    from dynoan.jobs.choose.curves import PlaceCurves

_SIGNS = {"compression": 1.0, "rebound": -1.0}


def draw_place(row: Sequence[Any], car: str, place: PlaceCurves, units: Shown = "metric") -> None:
    """Draw one place of a car: what is on it and what was chosen, their bands, and what is wanted there."""
    lines = [(f"best: {place.best.what}", place.corner, place.best)]
    if place.now is not None:
        lines.insert(0, (f"now: {place.now.what}", place.corner, place.now))
    draw_both(row, lines, wanted_points(place), units)
    drawn = "" if place.where == place.corner.name else f" ({CORNER_NAMES[place.corner.name]} drawn)"
    style.title(row[0], f"{car}, {place.where}{drawn}")


def wanted_points(place: PlaceCurves) -> list[tuple[float, float]]:
    """Return what is wanted at a place, as pairs of (signed velocity [m/s], ratio)."""
    return [(_SIGNS[r.wanted.direction] * r.wanted.velocity, r.wanted.ratio) for r in place.wanted]


def figure(answer: ChooseAnswer, units: Shown = "metric") -> Figure:
    """Return a row a place, below one another: all velocities, and low ones."""
    places = answer.curves()
    drawn, axes = new_rows(len(places))
    for row, place in zip(axes, places, strict=True):
        draw_place(row, answer.car.name, place, units)
    return drawn
