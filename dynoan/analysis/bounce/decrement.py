"""What the peaks of a decay tell without any model of the corner."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Decrement:
    """The logarithmic decrement of peaks a cycle apart."""

    delta: float  #: by least squares on the logarithms
    peaks: int

    @property
    def ratio(self) -> float:
        """Damping ratio, as if all damping were linear. [1]"""
        return self.delta / math.hypot(2 * math.pi, self.delta)


def decrement(peaks: FloatArray, cycles: float = 1.0) -> Decrement:
    """Return the logarithmic decrement of peaks.

    Parameters
    ----------
    peaks
        Magnitudes, evenly spaced in cycles, two at least.
    cycles
        From one to the next: 1/2 where valleys count too. [1]

    Raises
    ------
    QuantityError
        If there are fewer than two, or one is not above zero.
    """
    if len(peaks) < 2 or not np.all(peaks > 0):
        raise QuantityError("a decrement needs two peaks above zero at least")
    at = np.arange(len(peaks)) * cycles
    return Decrement(-float(np.polyfit(at, np.log(peaks), 1)[0]), len(peaks))
