"""Damping and friction of a decay from three of its peaks, in closed form: only tests need it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from dynoan.errors import QuantityError


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
