"""Rows at one speed that are no repeats of one another: the curve is their mean, and that is said."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.conditioning.tables.assumptions import APART_AT_A_SPEED, WELL_ABOVE_ZERO
from dynoan.model.arrays import FloatArray


def unlike_repeats(v: FloatArray, f: FloatArray) -> tuple[str, ...]:
    """Return what is said where rows at one speed lie further apart than repeats do; nothing where none do.

    Parameters
    ----------
    v, f
        Signed velocities [m/s] and forces [N] without gas, shape (n,) each.
    """
    for sign, direction in ((1.0, "compression"), (-1.0, "rebound")):
        speed, force = sign * v[sign * v > 0], sign * f[sign * v > 0]
        apart = []
        for one in np.unique(speed):
            rows = force[speed == one]
            if len(rows) > 1 and rows.mean() > WELL_ABOVE_ZERO * force.max():
                apart.append(float(np.ptp(rows) / rows.mean()))
        if apart and float(np.median(apart)) > APART_AT_A_SPEED:
            return (
                f"{direction} rows at one speed lie {100 * float(np.median(apart)):.0f} % apart, further than repeats "
                "of one setting do, so the curve is of none of them; name the runs in a column of their own",
            )
    return ()
