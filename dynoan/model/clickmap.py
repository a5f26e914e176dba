"""The model that gives a curve at every click of one pack, as tables."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from dynoan.errors import CallError
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.curve import Direction, Standing
from dynoan.model.shock import Adjuster, Shock

View = Literal["hydraulic", "interpolated", "single"]


@dataclass(frozen=True)
class ErrorsAlike:
    """How the errors of one direction of a click map hang together over speeds, at some clicks all over."""

    positions: tuple[FloatArray, ...]  #: clicks from closed of each axis [clicks]
    speeds: FloatArray  #: shape (b,) [m/s]
    alike: FloatArray  #: correlation, shape (positions, …, b, b) [1]


@dataclass(frozen=True)
class LossDoubt:
    """How far what a state of a shock has lost where it was run may be another loss at other clicks."""

    positions: tuple[FloatArray, ...]  #: clicks from closed of each axis [clicks]
    speeds: FloatArray  #: shape (b,) [m/s]
    variances: FloatArray  #: of shares of force, shape (states, positions…, b) [1]

    def one(self, index: Sequence[int]) -> LossDoubt:
        """Return the same at one setting, its index in the tables, over no adjuster."""
        values = self.variances
        for at, click in zip(self.positions, index, strict=True):
            where = float(np.interp(click, at, np.arange(len(at))))
            low = min(int(where), max(len(at) - 2, 0))
            high = min(low + 1, len(at) - 1)
            values = values[:, low] * (1.0 - (where - low)) + values[:, high] * (where - low)
        return LossDoubt((), self.speeds, values)


@dataclass(frozen=True)
class DirectionMap:
    """One direction of a click map, in magnitudes: force over all clicks of the adjusters that act on it."""

    adjusters: tuple[str, ...]  #: the axes of the tables, at most three
    speeds: FloatArray  #: from 0 to the highest tabulated speed, shape (s,) [m/s]
    force: FloatArray  #: shape (clicks+1, …, s), clicks from closed [N]
    half_width: FloatArray  #: half of the 95 % band, the same shape [N]
    top_speed: float  #: highest speed the tests hold [m/s]
    scales: FloatArray | None = None  #: force of each of the map's shocks over the mean shock's, shape (shocks, s)
    spread: float = 0.0  #: unit-to-unit spread that `half_width` holds, standard deviation as a share of force
    #: force of each state of the shocks over the mean shock's, and by how much its variance exceeds the mean shock's,
    #: a share of force squared; the states are those of `ClickMap.states`, shapes (states, s) and (states,)
    states: FloatArray | None = None
    state_variances: FloatArray | None = None
    losses: LossDoubt | None = None  #: what comes to `state_variances` away from the clicks at which a state was run
    errors: ErrorsAlike | None = None  #: of `half_width`, unit-to-unit spread apart
    #: by how much force may lie below and above for what all tests err by alike: friction taken for damping, or still
    #: in; 95 %, the same newtons everywhere, not in `half_width` [N]
    alike: tuple[float, float] = (0.0, 0.0)
    thinning: FloatArray | None = None  #: damping lost a kelvin and its standard deviation, shape (2, s) [1/K]

    def index(self, from_closed: Mapping[str, int]) -> tuple[int, ...]:
        """Return the table index of clicks from closed; an adjuster not named sits where its tests sat."""
        return tuple(int(from_closed[name]) for name in self.adjusters)

    def one(self, from_closed: Mapping[str, int]) -> DirectionMap:
        """Return the tables at one setting, over no adjuster: what is asked of one click need not turn all."""
        index = self.index(from_closed)
        losses = None if self.losses is None else self.losses.one(index)
        return replace(self, adjusters=(), force=self.force[index], half_width=self.half_width[index], losses=losses)

    def at(self, speed: ArrayLike) -> tuple[FloatArray, FloatArray]:
        """Return force and half band at speeds for every click, shape (clicks+1, …, len(speed)). [N]

        Without what all tests err by alike, for comparisons that allow for it themselves; see `limits`. Linear
        between the tabulated speeds; beyond the last the slope goes on and half the gain is added to the band.
        """
        hi, w = self._between(speed)
        force = self.force[..., hi - 1] * (1 - w) + self.force[..., hi] * w
        inside = np.clip(w, 0.0, 1.0)
        half = self.half_width[..., hi - 1] * (1 - inside) + self.half_width[..., hi] * inside
        gain = np.maximum(w - 1.0, 0.0) * np.abs(self.force[..., hi] - self.force[..., hi - 1])
        return force, half + 0.5 * gain

    def force_at(self, speed: ArrayLike) -> FloatArray:
        """Return the force of `at` alone, shape (clicks+1, …, len(speed)). [N]"""
        hi, w = self._between(speed)
        return np.asarray(self.force[..., hi - 1] * (1 - w) + self.force[..., hi] * w)

    def _between(self, speed: ArrayLike) -> tuple[IntArray, FloatArray]:
        """Return which tabulated speed ends the step that each speed lies in, and how far along the step it lies."""
        s = np.atleast_1d(np.abs(np.asarray(speed, dtype=float)))
        hi = np.clip(np.searchsorted(self.speeds, s), 1, len(self.speeds) - 1)
        x0, x1 = self.speeds[hi - 1], self.speeds[hi]
        return hi, (s - x0) / (x1 - x0)

    def limits(self, speed: ArrayLike) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Return force with its lower and upper 95 % limits at speeds for every click, as `at`, all errors in. [N]"""
        force, half = self.at(speed)
        return force, np.maximum(force - np.hypot(half, self.alike[0]), 0.0), force + np.hypot(half, self.alike[1])


@dataclass(frozen=True)
class ShockState:
    """A shock between two dates, as one state of it was tested."""

    shock: str
    first: str  #: ISO date of the first runs; empty where nobody wrote it
    last: str


@dataclass(frozen=True)
class CarriedUnit:
    """What another pack tells of a shock that was never tested with this one."""

    shock: str
    compression: float  #: logarithm of its force over the tables' [1]
    rebound: float
    variance: float  #: of these, a share of force squared [1]
    through: str  #: the pack that tells it


@dataclass(frozen=True)
class Oddity:
    """Something about an adjuster that its tests show to be other than written or usual."""

    #: "dead clicks", "stepped", "not monotone", "saturating", "hysteresis", "wrong way", "counted the other way",
    #: "counted two ways", "cross-talk"
    kind: str
    adjuster: str
    words: str


@dataclass(frozen=True)
class ClickMap:
    """One pack, every click. All clicks in here are counted from closed."""

    pack: str
    adjusters: tuple[Adjuster, ...]
    compression: DirectionMap
    rebound: DirectionMap
    tested: tuple[Mapping[str, int], ...]  #: the settings with a sweep, clicks from closed
    view: View = "interpolated"
    loo_error_pct: float = float("nan")  #: leave-one-out error, median [%]
    shocks: tuple[str, ...] = ()  #: whose sweeps it rests on
    gas_force: float = float("nan")  #: mean of the tested curves [N]
    gas_rate: float = float("nan")  #: the same [N/m]
    friction: float = float("nan")  #: mean of the tested curves [N]
    friction_sd: float = float("nan")  #: standard error of it; NaN where no test tells friction [N]
    spread_pct: float = float("nan")  #: unit-to-unit spread, standard deviation [%]
    notes: tuple[str, ...] = field(default=())
    states: tuple[ShockState, ...] = ()  #: of its shocks, by shock and date
    oddities: tuple[Oddity, ...] = ()
    doubts: tuple[str, ...] = ()  #: what may be odd and is not sure, each with the run that would tell; in `notes` too
    at_rest: tuple[str, ...] = ()  #: which force stays as the shaft comes to rest; in `notes` too
    carried: tuple[CarriedUnit, ...] = ()  #: shocks not tested with the pack that other packs tell of
    reference_c: float | None = None  #: oil temperature all tests were brought to; None where none told its own [°C]

    def direction(self, direction: Direction) -> DirectionMap:
        """Return one direction."""
        return self.compression if direction == "compression" else self.rebound

    def complete(self, from_closed: Mapping[str, int]) -> dict[str, int]:
        """Return clicks for every adjuster: those given, else the most tested position.

        Raises
        ------
        CallError
            If an adjuster is unknown to this pack or a click lies outside it.
        """
        known = {adjuster.name: adjuster for adjuster in self.adjusters}
        for name, click in from_closed.items():
            if name not in known:
                raise CallError(
                    f"pack {self.pack} has no adjuster '{name}'", hint=f"it has {', '.join(known) or 'none'}"
                )
            if not 0 <= click <= known[name].clicks:
                raise CallError(
                    f"{name}={click} is outside 0 to {known[name].clicks} from closed", where=f"pack {self.pack}"
                )
        return {name: from_closed[name] if name in from_closed else self._usual(name) for name in known}

    def from_counted(self, shock: Shock, clicks: Mapping[str, int]) -> dict[str, int]:
        """Return the clicks of every adjuster from closed, given as a shock counts; others at their most tested.

        Raises
        ------
        CallError
            If the pack has no such adjuster.
        QuantityError
            If a click lies outside its adjuster.
        """
        unknown = [n for n in clicks if n not in {a.name for a in self.adjusters}]
        if unknown:
            have = ", ".join(sorted(a.name for a in self.adjusters)) or "none"
            raise CallError(f"pack {self.pack} has no adjuster '{unknown[0]}' in its tests", hint=f"it has {have}")
        shock.check(clicks)
        return self.complete(shock.to_closed(clicks))

    def _usual(self, name: str) -> int:
        seen = [int(setting[name]) for setting in self.tested if name in setting]
        return max(sorted(set(seen)), key=seen.count) if seen else 0

    def standing(self, from_closed: Mapping[str, int]) -> Standing:
        """Return whether a setting was tested, lies between tested clicks of every adjuster, or outside them."""
        setting = self.complete(from_closed)
        if any(self.complete(t) == setting for t in self.tested):
            return "tested"
        for name, click in setting.items():
            seen = [int(t[name]) for t in self.tested if name in t]
            if seen and not min(seen) <= click <= max(seen):
                return "outside"
        return "between"

    def force(self, from_closed: Mapping[str, int], velocity: ArrayLike) -> tuple[FloatArray, FloatArray]:
        """Return signed force and half band, its wider half, at signed velocities for one setting. [N]"""
        v = np.atleast_1d(np.asarray(velocity, dtype=float))
        setting = self.complete(from_closed)
        c, hc = (a[self.compression.index(setting)] for a in self.compression.at(v))
        r, hr = (a[self.rebound.index(setting)] for a in self.rebound.at(v))
        hc, hr = np.hypot(hc, max(self.compression.alike)), np.hypot(hr, max(self.rebound.alike))
        return np.where(v >= 0, c, -r), np.where(v >= 0, hc, hr)
