"""A scaled one-parameter shape by least squares, such as a power law."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray

#: values of a shape and their derivative by its parameter, at positions and a parameter
Shape = Callable[[FloatArray, float], tuple[FloatArray, FloatArray]]


@dataclass(frozen=True)
class Scaled:
    """``y = a·g(x; b)`` with standard errors and the sum of squared residuals."""

    a: float
    b: float
    sd_a: float
    sd_b: float
    sse: float


def power(x: FloatArray, b: float) -> tuple[FloatArray, FloatArray]:
    """Return ``x^b`` and its derivative by b, at scaled positions above zero, shape (n,) each. [1]"""
    g = x**b
    return g, g * np.log(x)


def scaled_shape(x: FloatArray, y: FloatArray, shape: Shape, start: float, tolerance: float = 1e-12) -> Scaled:
    """Return the least-squares fit of ``y = a·g(x; b)``, a in the unit of `y` where g has none. [as `y`]

    Parameters
    ----------
    x, y
        Points, shape (n,).
    shape
        g and its derivative by b.
    start
        Starting value of b; a follows from it.
    tolerance
        Share of b below which a step ends the search.

    Raises
    ------
    FitError
        If the steps do not settle, or leave the numbers there are.

    Notes
    -----
    Gauss-Newton in both parameters, the step halved until the sum of squares falls; a is eliminated at each b.
    """
    b = start
    a, sse = _scale(x, y, shape, b)
    for _ in range(200):
        g, slope = shape(x, b)
        matrix = np.column_stack([g, a * slope])
        norm = np.sqrt(np.sum(matrix**2, axis=0))
        if not (np.isfinite(matrix).all() and norm.all()):
            break
        step = float((np.linalg.lstsq(matrix / norm, y - a * g, rcond=None)[0] / norm)[1])
        for _ in range(30):
            new_a, new_sse = _scale(x, y, shape, b + step)
            if new_sse <= sse:
                break
            step *= 0.5
        else:
            step = 0.0
        b, a, sse = (b + step, new_a, new_sse) if step else (b, a, sse)
        if abs(step) <= tolerance * abs(b):
            return _with_errors(matrix, Scaled(a, b, 0.0, 0.0, sse))
    raise FitError("the shape cannot be fitted to these points")


def _scale(x: FloatArray, y: FloatArray, shape: Shape, b: float) -> tuple[float, float]:
    g = shape(x, b)[0]
    a = float(g @ y / (g @ g))
    return a, float(np.sum((y - a * g) ** 2))


def _with_errors(matrix: FloatArray, found: Scaled) -> Scaled:
    dof = max(len(matrix) - 2, 1)
    norm = np.sqrt(np.sum(matrix**2, axis=0))
    scaled = matrix / norm
    try:
        inverse = np.linalg.inv(scaled.T @ scaled)
    except np.linalg.LinAlgError:
        raise FitError("the points cannot tell the shape's scale from its parameter") from None
    sd = np.sqrt(np.diag(inverse) * found.sse / dof) / norm
    return Scaled(found.a, found.b, float(sd[0]), float(sd[1]), found.sse)
