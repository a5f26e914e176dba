"""How far a joint fit has come: lags, coefficients, and what is left out as yet."""

from __future__ import annotations

from dataclasses import dataclass

from dynoan.analysis.conditioning import assumptions as a
from dynoan.model.arrays import FloatArray

#: effects that are linearised about their present value; "early" is the lag's other sign
LAGS = ("lag", "spread", "give", "air")
ALL_LAGS = (*LAGS, "early")


@dataclass(frozen=True)
class Lag:
    """How the force channel and the mounts follow."""

    lag: float = 0.0  #: first moment of the channel's response [s]
    spread: float = 0.0  #: its variance: zero for a pure delay, lag² for a first-order low-pass [s²]
    give: float = 0.0  #: in series with the valve [m/N]
    air: float = 0.0  #: more of it at zero force [m/N]

    def halfway(self, other: Lag) -> Lag:
        """Return what lies between this and another."""
        return Lag(*(0.5 * (getattr(self, name) + getattr(other, name)) for name in LAGS))


@dataclass(frozen=True)
class State:
    """What the next step is linearised about."""

    lag: Lag = Lag()
    x: FloatArray | None = None  #: coefficients: steps of the splines, then effects
    steps: FloatArray | None = None  #: steps of the splines, above zero [N]


@dataclass(frozen=True)
class Stage:
    """What a step leaves out, and how much friction is expected."""

    shut: tuple[str, ...] = ()  #: lags that stay as they are
    early: bool = False  #: friction laws that can look like lag are left out
    friction: float = a.FRICTION_SPREAD  #: standard deviation of all laws together [N]
    yields: bool = False  #: whether the fluid may yield; else slope near zero is expected to grow as a bleed's does

    @property
    def loose(self) -> bool:
        """Whether nothing is expected of the slope near zero."""
        return self.yields or self.early
