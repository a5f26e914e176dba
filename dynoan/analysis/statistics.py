"""Statistics written once: normal and Student quantiles, a robust scale."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

#: two-sided 95 % quantile of the normal distribution [1]; tabulated, e.g. Abramowitz & Stegun, table 26.1
Z95 = 1.959963984540054
#: median absolute value of a standard normal variable [1]: its 75 % quantile
MEDIAN_OF_NORMAL = 0.6744897501960817


def robust_scale(values: ArrayLike) -> float:
    """Return the standard deviation that the median absolute value tells of, as if normal about zero. [as the values]

    >>> round(robust_scale([-1.0, 1.0, 1.0, -1.0, 50.0]), 4)
    1.4826
    """
    return float(np.median(np.abs(np.asarray(values, dtype=float)))) / MEDIAN_OF_NORMAL
