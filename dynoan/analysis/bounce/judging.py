"""Whether the measured swing is the predicted one, and what would explain the difference."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from dynoan.analysis.bounce.assumptions import TOO_WIDE
from dynoan.analysis.statistics import Z95
from dynoan.model.banded import Banded

BounceVerdict = Literal["agrees", "differs", "cannot tell"]


@dataclass(frozen=True)
class SwingHeld:
    """A measured figure against the predicted one, as a factor."""

    factor: Banded  #: measured over predicted

    @property
    def differs(self) -> bool:
        """Whether one lies outside what both leave open."""
        return not self.factor.low <= 1.0 <= self.factor.high

    @property
    def open(self) -> bool:
        """Whether the limits are so wide that nothing could differ."""
        return self.factor.high / self.factor.low > TOO_WIDE**2


def held(measured: Banded, predicted: Banded) -> SwingHeld:
    """Return a measured figure over the predicted one, limits of both taken together on a logarithmic scale."""
    own = math.log(measured.high / measured.low) / (2 * Z95)
    other = math.log(predicted.high / predicted.low) / (2 * Z95)
    factor, spread = measured.value / predicted.value, Z95 * math.hypot(own, other)
    return SwingHeld(Banded(factor, factor * math.exp(-spread), factor * math.exp(spread)))


def bounce_verdict(frequency: SwingHeld, ratio: SwingHeld, *, stated: bool = True) -> BounceVerdict:
    """Return whether frequency and ratio are as predicted; a frequency that cannot be stated differs from nothing."""
    if (frequency.differs and stated) or ratio.differs:
        return "differs"
    return "cannot tell" if ratio.open or frequency.open or frequency.differs else "agrees"
