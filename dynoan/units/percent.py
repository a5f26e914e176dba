"""To how many places a percentage is told."""

from __future__ import annotations

#: a band that reaches so far to either side leaves a tenth of a percent nothing to say; common practice [%]
COARSE = 1.0


def percent_places(low: float, high: float) -> int:
    """Return to how many decimals a percentage with these limits is told. [%]

    >>> percent_places(-0.2, 0.9), percent_places(-16.0, 12.9)
    (1, 0)
    """
    return 0 if (high - low) / 2.0 >= COARSE else 1
