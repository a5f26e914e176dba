"""What plain least squares say of how force runs with clicks, before any law of a valve."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.clickmap.assumptions.odd_tests import PLAIN_MISFIT
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.model.arrays import FloatArray


def plain_slopes(data: DirectionData, logs: FloatArray) -> dict[int, tuple[float, float]]:
    """Return by how much a logarithm moves over a whole turn of each moved axis, and the error of that.

    Parameters
    ----------
    data
        The tests.
    logs
        One logarithm of each, shape (T,). [1]

    Returns
    -------
    :
        Slope and standard error by the axis' number. [1]
    """
    moved = [i for i, m in enumerate(data.moved) if m]
    design = np.column_stack([np.ones(data.tests), *(data.clicks[:, i] / data.last[i] for i in moved)])
    scale = PLAIN_MISFIT**2 * np.eye(design.shape[1])
    scale[0, 0] = 0.0
    normal = design.T @ design + scale
    centred = logs - logs.mean()
    slopes = np.linalg.solve(normal, design.T @ centred)
    rest = centred - design @ slopes
    freedom = max(data.tests - design.shape[1], 1)
    error = np.sqrt(max(float(rest @ rest) / freedom, PLAIN_MISFIT**2) * np.diag(np.linalg.inv(normal)))
    return {i: (float(slopes[k]), float(error[k])) for k, i in enumerate(moved, 1)}


def clearly_rises(data: DirectionData, axis: int, so_many: float) -> bool:
    """Return whether force rises as an axis is opened, by so many standard errors at the speed that shows it best."""
    found = [plain_slopes(data, row).get(axis, (0.0, 1.0)) for row in data.logs.T]
    off = np.array([slope / max(error, 1e-12) for slope, error in found])
    return bool(off.max() > so_many and off.max() > -off.min())
