"""The band of a predicted swing: the same push with damping and stiffness at the ends of what they may be."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.bounce.limits import SwingFit
from dynoan.analysis.bounce.problem import kernel_of
from dynoan.analysis.bounce.swing import COMPRESSION, KAPPA, REBOUND, TAU, swing
from dynoan.model.arrays import FloatArray


def swing_within(fit: SwingFit) -> tuple[FloatArray, FloatArray]:
    """Return how low and how high the first swing of a fit may lie at each of its times, shapes (n,). [as logged]

    Ratio and frequency without the shock go to the ends of their limits, one after the other, the push as deep; what
    each does is added as squares at every moment.

    Parameters
    ----------
    fit
        Whose limits hold all that is open.
    """
    nominal = _made(fit, fit.parameters)
    parts: list[tuple[FloatArray, FloatArray]] = []
    for figure, places, power in ((fit.ratio, [COMPRESSION, REBOUND], 1.0), (fit.free, [KAPPA, TAU], 2.0)):
        moved = []
        for end in (figure.low, figure.high):
            p = fit.parameters.copy()
            p[places] *= (end / figure.value) ** power
            moved.append(_made(fit, p) - nominal)
        parts.append((np.minimum(np.minimum(*moved), 0.0), np.maximum(np.maximum(*moved), 0.0)))
    below, above = (np.asarray(np.linalg.norm([part[side] for part in parts], axis=0)) for side in (0, 1))
    return np.asarray(fit.fitted[0] - below), np.asarray(fit.fitted[0] + above)


def _made(fit: SwingFit, p: FloatArray) -> FloatArray:
    """Return the first swing with other parameters, begun as the fit has it, smoothed as the log was."""
    kernel = kernel_of(fit.step)
    time = fit.step * np.arange(len(fit.fitted[0]) + len(kernel) - 1, dtype=np.float64)
    begin: FloatArray = np.array(fit.begun[0], dtype=np.float64)
    made: FloatArray = swing(time, begin, np.asarray(p))[1 if fit.acceleration else 0]
    return np.convolve(made, kernel, mode="valid")
