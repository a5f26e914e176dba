"""The picture of a curve: of one sweep with all that was found in it, or of several curves over one another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.show.plots.force_over_velocity import overlay
from dynoan.show.plots.one_sweep import sweep_picture
from dynoan.units import Shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from dynoan.jobs.curve import CurveAnswer


def figure(answer: CurveAnswer, units: Shown = "metric") -> Figure:
    """Return the picture of one sweep, or of several curves over one another."""
    found = answer.found
    drawn: Figure = (
        sweep_picture(found[0].sweeps[0], found[0].curve, units)
        if len(found) == 1 and len(found[0].sweeps) == 1
        else overlay([(one.label, one.curve) for one in found], units)
    )
    return drawn
