"""Force held at an end of its channel's range: the load was beyond it, and nobody knows by how much."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.ramps import RAMP_WITHIN, ramps

#: how all begins that is said of it, by whoever reads a file and by whoever fits it
CLIPPED = "force is clipped"
#: [samples] force held at its extreme so long in all, and so long at once, is clipped; judged: noise alone leaves no
#: five samples at one number; a slow peak leaves fewer than this in all
CLIPPED_SAMPLES, CLIPPED_RUN = 6, 5
#: [1] what counts as held at the extreme, and as near it, as shares of the force's span; judged: a converter's last
#: count is larger; a peak is round over more than two hundredths
CLIPPED_HELD, CLIPPED_NEAR = 1e-6, 0.02
#: [1] share of the samples near the extreme that must be held there; judged: of a true peak most samples lie beside
#: the top
CLIPPED_SHARE = 0.5
#: [1] share of the held samples that lies on ramps where the valve holds them; judged: some stand where it turns
CLIPPED_ON_RAMPS = 0.9


def held_at_end(force: FloatArray, extreme: float, other: float) -> BoolArray | None:
    """Return which samples are held at an extreme, shape (n,); None where it is a peak like any.

    Parameters
    ----------
    force
        The record, shape (n,). [N]
    extreme, other
        Its extreme, and the one at the other end. [N]
    """

    def within(share: float) -> BoolArray:
        edge = extreme - share * (extreme - other)
        return force >= edge if extreme > other else force <= edge

    at = within(CLIPPED_HELD)
    held = int(np.count_nonzero(at))
    if held < CLIPPED_SAMPLES:
        return None
    runs = np.diff(np.flatnonzero(np.diff(np.concatenate([[0], at.view(np.int8), [0]]))))[::2]
    near = int(np.count_nonzero(within(CLIPPED_NEAR)))
    return at if runs.max() >= CLIPPED_RUN and held >= CLIPPED_SHARE * near else None


def at_one_speed(displacement: FloatArray | None, held: BoolArray) -> bool:
    """Return whether held samples lie on ramps of one speed, where a force that stands still is the valve's.

    Parameters
    ----------
    displacement
        In even steps of time, shape (n,), None where it was not recorded. [m]
    held
        Which samples hold one force, shape (n,).
    """
    if displacement is None:
        return False
    step = np.gradient(displacement)
    some = np.abs(step[held & ramps(step, standing=0.0)])
    if len(some) < CLIPPED_ON_RAMPS * np.count_nonzero(held):
        return False
    slow, fast = np.percentile(some, [5, 95])
    return bool(fast < (1 + RAMP_WITHIN) * slow)
