"""The fitted damping force against velocity of one setting."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from html import escape
from typing import TYPE_CHECKING, Any, ClassVar, Literal

import numpy as np
from numpy.typing import ArrayLike

from dynoan.model.arrays import FloatArray
from dynoan.model.side import Side
from dynoan.units import Shown, shown

if TYPE_CHECKING:
    import pandas as pd

Standing = Literal["tested", "between", "outside"]
Direction = Literal["compression", "rebound"]
DIRECTIONS: tuple[Direction, Direction] = ("compression", "rebound")
#: speeds of the table in a notebook, by units shown; round there [m/s]
NOTEBOOK_SPEEDS: Mapping[Shown, tuple[float, ...]] = {
    "metric": (0.025, 0.05, 0.1, 0.15, 0.25, 0.4, 0.6, 1.0),
    "us": tuple(0.0254 * s for s in (1, 2, 4, 6, 10, 16, 24, 40)),
}  # fmt: skip
#: a speed up to this many times the top speed is measured too: a top speed given in other units moves that little
NEAR_TOP = 1.001


@dataclass(frozen=True)
class Curve:
    """Damping force against velocity of one setting: continuous, piecewise, zero at zero. Positive in compression."""

    #: what draws a curve on axes (or on new ones, for None); a door brings it along
    drawer: ClassVar[Callable[[Any, Curve], Any] | None] = None

    compression: Side
    rebound: Side
    what: str = ""
    shock: str | None = None
    pack: str | None = None
    clicks: Mapping[str, int] = field(default_factory=dict)
    gas_force: float = float("nan")  #: at mid-stroke, NaN where the data cannot tell [N]
    friction: float = float("nan")  #: half the loop height at rest, NaN where the data cannot tell [N]
    friction_sd: float = float("nan")  #: standard error of `friction` [N]
    gas_rate: float = float("nan")  #: of the gas over travel at mid-stroke, NaN where no sweep tells it [N/m]
    rms: float = float("nan")  #: residual of the fit over both directions [N]
    standing: Standing = "tested"
    temperature: float | None = None  #: [°C]
    sweeps: tuple[str, ...] = ()  #: ids or file names that were pooled
    #: what conditioning found and took out, one line each
    findings: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    units: Shown = "metric"  #: what people are shown; the figures are SI whatever it says

    def side(self, direction: Direction) -> Side:
        """Return one direction."""
        return self.compression if direction == "compression" else self.rebound

    def __repr__(self) -> str:
        sides = ", ".join(f"{name} {_side_words(self.side(name), self.units)}" for name in DIRECTIONS)
        return f"<Curve {self.what or 'without a name'}: {sides}; {_force_words(self)}>"

    def _repr_html_(self) -> str:
        """Return what a notebook shows: the knees, gas and friction, and forces with their bands."""
        rows = "".join(_html_row(self, speed) for speed in _usual_speeds(self))
        sides = "<br>".join(f"{name}: {_side_words(self.side(name), self.units)}" for name in DIRECTIONS)
        force, velocity = shown("force", self.units).unit, shown("velocity", self.units).unit
        head = f"<tr><th>{velocity}</th><th>compression [{force}]</th><th>rebound [{force}]</th></tr>"
        name = escape(self.what or "curve")
        return f"<b>{name}</b><br>{sides}<br>{_force_words(self)}<table>{head}{rows}</table>"

    def __call__(self, velocity: ArrayLike) -> FloatArray:
        """Return the signed damping force at signed velocities. [N]"""
        v = np.asarray(velocity, dtype=float)
        return np.where(v >= 0, self.compression.force(v), -self.rebound.force(v))

    def band(self, velocity: ArrayLike) -> tuple[FloatArray, FloatArray]:
        """Return the signed lower and upper 95 % limits at signed velocities. [N]"""
        v = np.asarray(velocity, dtype=float)
        c_low, c_high = self.compression.band(v)
        r_low, r_high = self.rebound.band(v)
        return np.where(v >= 0, c_low, -r_high), np.where(v >= 0, c_high, -r_low)

    def total(self, velocity: ArrayLike) -> FloatArray:
        """Return damping and friction together at signed velocities, as measured but for gas, zero and lag. [N]

        Where nobody told the split (a curve from a click map) it is the curve and, where known, the friction.
        """
        v = np.asarray(velocity, dtype=float)
        return np.where(v >= 0, self._sum(self.compression, v, 0), -self._sum(self.rebound, v, 0))

    def total_band(self, velocity: ArrayLike) -> tuple[FloatArray, FloatArray]:
        """Return the signed lower and upper 95 % limits of damping and friction together at signed velocities. [N]"""
        v = np.asarray(velocity, dtype=float)
        (c_low, c_high), (r_low, r_high) = (
            [self._sum(side, v, k) for k in (1, 2)] for side in (self.compression, self.rebound)
        )
        return np.where(v >= 0, c_low, -r_high), np.where(v >= 0, c_high, -r_low)

    def _sum(self, side: Side, velocity: FloatArray, which: int) -> FloatArray:
        """Return the sum in one direction, magnitudes: itself (0), its lower (1) or upper (2) limit. [N]"""
        speed = np.abs(velocity)
        values = (side.force(speed), *side.band(speed))
        if side.total is None:
            friction = np.where(speed > 0, self.friction if np.isfinite(self.friction) else 0.0, 0.0)
            return np.asarray(values[which] + friction)
        inside = np.minimum(speed, side.speeds[-1])
        at = (side.force(inside), *side.band(inside))
        return np.asarray(np.interp(inside, side.speeds, side.total[which]) + values[which] - at[which])

    def secant(self, velocity: ArrayLike) -> FloatArray:
        """Return force over velocity; at zero the tangent there. [N·s/m]"""
        v = np.asarray(velocity, dtype=float)
        safe = np.where(np.abs(v) < 1e-6, 1e-6, v)
        return np.asarray(self(safe) / safe)

    def tangent(self, velocity: ArrayLike) -> FloatArray:
        """Return the slope of force over velocity, by central difference within a piece. [N·s/m]"""
        v = np.asarray(velocity, dtype=float)
        step = 1e-5
        return np.asarray((self(v + step) - self(v - step)) / (2 * step))

    def extrapolated(self, velocity: ArrayLike) -> FloatArray:
        """Return 1.0 where a velocity lies beyond the measured speeds of its direction, else 0.0. [1]"""
        v = np.asarray(velocity, dtype=float)
        return np.where(v > self.compression.top_speed, 1.0, np.where(-v > self.rebound.top_speed, 1.0, 0.0))

    def table(self, velocity: ArrayLike | None = None) -> pd.DataFrame:
        """Return velocity, force and band as a DataFrame with the units in the column names."""
        import pandas as pd

        v = self.grid() if velocity is None else np.asarray(velocity, dtype=float)
        low, high = self.band(v)
        data = {"velocity_m_s": v, "force_n": self(v), "low_n": low, "high_n": high}
        return pd.DataFrame(data).assign(extrapolated=self.extrapolated(v) > 0)

    def grid(self, points: int = 21) -> FloatArray:
        """Return signed velocities over the measured range, both directions, zero once. [m/s]"""
        down = -np.linspace(self.rebound.top_speed, 0.0, points)
        return np.concatenate([down, np.linspace(0.0, self.compression.top_speed, points)[1:]])

    def plot(self, ax: Any = None) -> Any:
        """Draw the curve with its band on matplotlib axes and return them; on new axes where none are given.

        Raises
        ------
        NotImplementedError
            If nothing that draws came along: `dynoan.fit` and `dynoan.open` bring it.
        """
        if Curve.drawer is None:
            raise NotImplementedError("no pictures here: import dynoan and use dynoan.fit or dynoan.open")
        return Curve.drawer(ax, self)


def _side_words(side: Side, units: Shown) -> str:
    """Return knees and reach of one direction in words."""
    if side.top_speed <= 0:
        return "not recorded"
    force, velocity = shown("force", units), shown("velocity", units)
    knees = " and ".join(f"{velocity.text(k.velocity)} ({force.text(k.force)})" for k in side.knees)
    end = float(side.force(side.top_speed))
    return f"{f'knee at {knees}, ' if knees else ''}{force.text(end)} at {velocity.text(side.top_speed)}"


def _force_words(curve: Curve) -> str:
    parts, force = [("gas", curve.gas_force), ("friction", curve.friction)], shown("force", curve.units)
    return ", ".join(f"{name} {'not known' if value != value else force.text(value)}" for name, value in parts)


def _usual_speeds(curve: Curve) -> list[float]:
    top = max(curve.compression.top_speed, curve.rebound.top_speed)
    return [s for s in NOTEBOOK_SPEEDS[curve.units] if s <= top]


def _html_row(curve: Curve, speed: float) -> str:
    cells, force, velocity = [], shown("force", curve.units), shown("velocity", curve.units)
    for v in (speed, -speed):
        low, high = (float(limit) for limit in curve.band(v))
        value = float(curve(v))
        up, down = (high - value, value - low) if v > 0 else (value - low, high - value)
        cells.append(f"<td>{force.text(abs(value), unit=False)} {force.band(up, down)}</td>")
    return f"<tr><td>{velocity.text(speed, unit=False)}</td>{''.join(cells)}</tr>"
