"""The sizes that rule how far a click map's trend is trusted, and each of them by name."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Literal

from dynoan.analysis.clickmap.assumptions.spread import ODD_OWN, REPEAT_SHARE


@dataclass(frozen=True)
class MapSpread:
    """The sizes that rule how far the trend is trusted. Standard deviations, shares of force unless said otherwise."""

    discrepancy: float = 0.03  #: of the trend from the truth
    span: float = 0.5  #: over which share of an adjuster's range the discrepancy stays alike
    shock: float = 0.0  #: unit to unit
    unit_more: float = 0.0  #: by how many times that units differ more where passages weigh most
    odd: tuple[int, ...] = ()  #: shocks that differ far more than the rest: their own curve is free
    odd_own: float = ODD_OWN  #: share of that freedom, by variance, that is each speed's own
    odd_even: float = 0.0  #: and that is alike at all
    states: tuple[float, ...] = ()  #: of each state of a shock from how it was first; none for that
    repeat: float = REPEAT_SHARE  #: from run to run
    warps: tuple[float, ...] = ()  #: of each axis' opening from the one taken, a share of the whole turn
    loose: tuple[float, ...] = ()  #: of where each axis stands in one run from its click [clicks]


@dataclass(frozen=True)
class Size:
    """One of those sizes: its name, and its place among those of its name."""

    name: Literal["discrepancy", "shock", "repeat", "states", "warps", "loose"]
    number: int = 0

    def of(self, spread: MapSpread) -> float:
        """Return its value. [1]"""
        value: float | tuple[float, ...] = getattr(spread, self.name)
        return value[self.number] if isinstance(value, tuple) else value

    def at(self, spread: MapSpread, value: float) -> MapSpread:
        """Return sizes with this one at a value. [1]"""
        known: float | tuple[float, ...] = getattr(spread, self.name)
        now = (*known[: self.number], value, *known[self.number + 1 :]) if isinstance(known, tuple) else value
        changed: dict[str, Any] = {self.name: now}
        return replace(spread, **changed)
