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


@dataclass(frozen=True)
class DryDecay:
    """Linear damping and friction told apart by three extremes half a cycle apart."""

    ratio: float
    offset: float  #: friction over the spring's rate, as the peaks


def dry_decay(first: float, second: float, third: float) -> DryDecay:
    """Return damping ratio and friction of three successive magnitudes half a cycle apart.

    `X' = q·X − (F/k)(1 + q)`, `q = exp(−πζ/√(1 − ζ²))`; B. F. Feeny and J. W. Liang, J. Sound Vib. 195 (1996) 149-154.

    Raises
    ------
    QuantityError
        If they do not fall as such a decay does.
    """
    if not first > second > third > 0:
        raise QuantityError("such a decay falls from peak to peak")
    q = (second - third) / (first - second)
    ln = -math.log(q)
    return DryDecay(ln / math.hypot(math.pi, ln), (q * first - second) / (1 + q))
