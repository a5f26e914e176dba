"""A figure with how sure it is."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Banded:
    """A figure with its 95 % limits, in the figure's own unit."""

    value: float
    low: float
    high: float
    extrapolated: bool = False  #: beyond the speeds the data hold

    def text(self, digits: int = 2) -> str:
        """Return it as people read it.

        >>> Banded(0.45, 0.43, 0.47).text()
        '0.45 (0.43–0.47)'
        """
        mark = " beyond data" if self.extrapolated else ""
        return f"{self.value:.{digits}f} ({self.low:.{digits}f}–{self.high:.{digits}f}){mark}"
