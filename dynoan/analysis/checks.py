"""What formulas ask of what they are given."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from dynoan.errors import QuantityError, Spot
from dynoan.model.arrays import FloatArray


def positive(name: str | Spot, value: ArrayLike) -> FloatArray:
    """Return a quantity as an array, every element of which is a finite number above zero.

    Parameters
    ----------
    name
        Of the quantity, for the error.
    value
        Any shape and unit.

    Returns
    -------
    :
        The same values, of the same shape and unit.

    Raises
    ------
    QuantityError
        If any element is zero, negative, infinite or not a number: a mass or a spring that is not known is an error
        where it is asked for, and not a result that is not known either.

    Examples
    --------
    >>> positive("mass", [240.0, 260.0]).tolist()
    [240.0, 260.0]
    >>> positive("mass", float("nan"))
    Traceback (most recent call last):
    dynoan.errors.QuantityError: mass must be a finite number above zero, found nan
    """
    array = np.asarray(value, dtype=float)
    if type(value) is float and 0.0 < value < math.inf:  # most are: a page that turns clicks asks thousands of times
        return array
    wrong = ~((array > 0) & np.isfinite(array))
    if np.any(wrong):
        what, where = (name.key, name.file) if isinstance(name, Spot) else (name, "")
        raise QuantityError(f"{what} must be a finite number above zero, found {array[wrong].flat[0]:g}", where=where)
    return array


def positive_number(name: str | Spot, value: float) -> float:
    """Return a single quantity that is a finite number above zero, as `positive`. [as the quantity]"""
    return float(positive(name, value))
