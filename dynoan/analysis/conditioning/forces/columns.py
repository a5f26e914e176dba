"""The columns of the joint fit, linearised about a state."""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.effects import (
    Effect,
    acceleration,
    frictions,
    gas_effects,
    gradients,
    heat_effects,
    rod_angle,
    slope_in_time,
    yielding,
)
from dynoan.analysis.conditioning.forces.resting import NO_RESTS, Rests, held
from dynoan.analysis.conditioning.forces.shape import centres, speed_edges, steps_to_weights
from dynoan.analysis.conditioning.forces.splines import Design, design
from dynoan.analysis.conditioning.forces.state import LAGS, State
from dynoan.analysis.conditioning.forces.valve import Valve, earlier, of_lag
from dynoan.analysis.conditioning.samples.phases import phases
from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.analysis.conditioning.samples.turning import missed, sharpness, steps_in_time, turns
from dynoan.model.arrays import BoolArray, FloatArray, IntArray

#: effects whose coefficients are gas force over half a stroke
GAS_COLUMNS = frozenset(f"gas {h}" for h in a.COLUMNS)
#: kinds of effects that turn as friction does
RUBBING = ("friction", "breakaway", "tilt")
_TURNED = 20_000  #: rows up to which they are: of more it is asked seldom, and a copy is large


@dataclass(frozen=True)
class Linear:
    """One linearised problem: ``y`` is the splines and the effects."""

    lines: Design
    effects: list[Effect]
    y: FloatArray  #: force with the lag so far out and linear terms back in, shape (n,) [N]
    velocity: FloatArray  #: of the valve, shape (n,) [m/s]
    unsure: FloatArray  #: standard deviation of force for the sharpness of its turns, shape (n,) [N]

    def scattering(self, more: float) -> Linear:
        """Return the problem with damping that scatters so many times as much from turn to turn."""
        return replace(
            self, effects=[replace(e, prior=more * e.prior) if e.kind == "gain" else e for e in self.effects]
        )


class Columns:
    """What stays the same of a record's columns over all steps."""

    def __init__(
        self, rows: Rows, *, gas_out: bool = False, rests: Rests = NO_RESTS, steep: float = a.SLOPE_FLOOR,
        tilts: float = 1.0,
    ) -> None:  # fmt: skip
        """Take the rows of a record and its rests; `gas_out` where gas force was taken out of it before.

        Slopes near zero may be `steep` times the secant above [1]; friction is expected to differ between directions
        by `tilts` times what is usual [1].
        """
        self.rows, self.gas_out, self.tilts = rows, gas_out, tilts
        self.peak = float(np.percentile(np.abs(rows.force - np.median(rows.force)), 99)) + 1e-9
        #: how many times as strong friction is expected as in a car's shock [1]
        self.larger = max(self.peak / a.USUAL_PEAK, 1.0) ** a.LARGER_SEALS
        v = rows.velocity
        self.edges = (speed_edges(v[v > 0]), speed_edges(-v[v < 0]))
        self.sizes = (len(self.edges[0]), len(self.edges[1]))
        self.size = sum(self.sizes)
        self.steep = steep
        self.guess = np.concatenate([np.diff(centres(e), prepend=0.0) * self.peak / e[-1] for e in self.edges])
        self.to_weights = steps_to_weights(self.sizes)
        #: rows over the steps that are the difference of both directions' damping near zero speed, shape (p,)
        self.apart = np.concatenate([
            sign * (centres(e) < a.EVEN_BELOW) for sign, e in zip((1.0, -1.0), self.edges, strict=True)
        ])  # fmt: skip
        self.timed = bool(np.any(rows.force_rate != 0))
        self.clock, self.work = _clocks(rows)
        self.held = held(rests, rows, self.peak, {"zero drift": self.clock, "warm gas": self.work})
        self.angle = rod_angle(rows)
        x = rows.displacement
        self.reach = 0.0 if x is None else 0.5 * float(np.ptp(x))
        # Of all rows: some of them may span a little less, and a fit on them would be of fewer effects.
        self.warms = rows.temperature is not None and bool(np.ptp(rows.temperature) >= a.LEAST_WARMING)
        self.static = self._static()
        self.fixed = np.array([e.column for e in self.static])
        self.fixed_rate = np.array(gradients(rows, [e.column for e in self.static]))
        self.second = slope_in_time(rows, rows.force_rate, 11) if self.timed else np.zeros(len(rows))
        self.turn, self.row_step = turns(rows, rows.force), steps_in_time(rows)
        self.rubbing = np.array([e.kind in RUBBING for e in self.static])
        self.rubbing_turn = turns(rows, self.fixed[self.rubbing])
        # Spans are far apart on this clock, so nothing is interpolated from one into the next.
        self.whole = (rows.time + rows.span * 1e3, rows.force, rows.force_rate, self.second)
        self.step = float(np.max(np.diff(rows.time)[np.diff(rows.span) == 0], initial=0.0))

    def few(self, every: int) -> Columns:
        """Return the columns at one row in so many; slopes in time are those of all rows."""
        return self.some(np.arange(0, len(self.rows), every))

    def some(self, at: IntArray) -> Columns:
        """Return the columns at some rows; slopes in time are those of all rows."""
        out = copy(self)
        for known in ("blocks", "place", "_by_row"):
            out.__dict__.pop(known, None)
        out.rows = self.rows.take(at)
        out.fixed, out.fixed_rate = self.fixed[:, at], self.fixed_rate[:, at]
        out.static = [replace(e, column=column) for e, column in zip(self.static, out.fixed, strict=True)]
        out.clock, out.work, out.second = self.clock[at], self.work[at], self.second[at]
        out.angle, out.turn, out.row_step = self.angle[at], self.turn[at], self.row_step[at]
        out.rubbing_turn = self.rubbing_turn[:, at]
        return out

    def _static(self) -> list[Effect]:
        rows, p = self.rows, self.peak
        open_, gas = float(np.hypot(a.OFFSET_OPEN, a.OFFSET_SHARE * p)), 0.0 if self.gas_out else a.OFFSET
        out = [Effect("offset", np.ones(len(rows)), open_, mean=gas)]
        out += gas_effects(rows, self.reach) + heat_effects(rows, self.reach)
        drift = float(np.hypot(a.ZERO_DRIFT_LEAST, a.ZERO_DRIFT * p))
        out += [Effect("zero drift", self.clock, drift), Effect("warm gas", self.work, a.ZERO_DRIFT * p)]
        out += [Effect("mass", acceleration(rows), a.MASS, True)] if self.timed else []
        times = {"tilt": self.tilts, "friction": self.larger, "breakaway": self.larger}
        return out + [replace(e, prior=times.get(e.kind, 1.0) * e.prior) for e in frictions(rows)]

    def at(self, state: State, gain: float, *, shut: tuple[str, ...], early: bool) -> Linear:
        """Return the problem linearised about a state; `gain` is the scatter of damping from turn to turn, a share."""
        valve = self._valve(state, early)
        lines = design(valve.velocity, self.edges, self.rows.half)
        yields, yield_slopes = yielding(valve.velocity, self.rows.half)
        effects = self._known(state)
        effects += [Effect(f"yield {i}", c, a.YIELD_SHARE * self.peak, True, "yield") for i, c in enumerate(yields)]
        y, tied, unsure = valve.force.copy(), None, np.zeros(len(self.rows))
        if state.steps is not None and state.x is not None:
            smooth, steep = lines.curve(self.to_weights @ state.steps)
            amount = state.x[self.size + len(self.static) :][: len(yields)]
            smooth = smooth + np.einsum("e,en->n", amount, yields)
            steep = steep + np.einsum("e,en->n", amount, yield_slopes)
            if self.timed and (state.lag.give or state.lag.air):
                # Friction and gas do not load the spring: what is taken for them moves the valve's speed.
                tied = steep * (state.lag.give + state.lag.air * valve.soft)
                # Nor does it matter then how sharply friction turns.
                rubbing = state.x[self.size : self.size + len(self.static)][self.rubbing]
                sharp = sharpness(self.turn - rubbing @ self.rubbing_turn, self.rows.white, self.place)
                unsure = missed(sharp, tied / self.row_step)
                y += tied * valve.other_rate
            effects += self._of_damping(smooth, gain, state.x[self.size + len(effects) :])
            late = of_lag(state.lag, valve, steep) if self.timed else []
            effects += [e for e in late if e.name not in shut]
        for e in effects:
            if e.name in LAGS:
                y += e.column * float(getattr(state.lag, e.name))
        return Linear(replace(lines, effects=self._matrix(effects, tied)), effects, y, valve.velocity, unsure)

    def _known(self, state: State) -> list[Effect]:
        """Return the effects that do not hang on the valve; gas that warms is stiffer by a share of its own rate."""
        if state.x is None:
            return list(self.static)
        amount = state.x[self.size : self.size + len(self.static)]
        rate = sum(max(float(c), 0.0) for e, c in zip(self.static, amount, strict=True) if e.name in GAS_COLUMNS)
        stiffer = float(np.hypot(a.GAS_STIFFER * rate, a.GAS_STIFFER_FIRST))
        return [replace(e, prior=stiffer) if e.kind == "heat" else e for e in self.static]

    def _matrix(self, effects: list[Effect], tied: FloatArray | None) -> FloatArray:
        """Return the effects' columns, the first ones moved by what their rate does to the valve, shape (e, n)."""
        first = len(self.static)
        out = np.empty((len(effects), len(self.rows)))
        fixed, rate = self._by_row
        if tied is None:
            out[:first] = fixed
        else:
            np.multiply(tied, rate, out=out[:first])
            out[:first] += fixed
        for row, effect in zip(out[first:], effects[first:], strict=True):
            row[:] = effect.column
        return out

    def _valve(self, state: State, early: bool) -> Valve:
        """Return force with the lag out, and the velocity that reaches the valve."""
        rows, lag = self.rows, state.lag
        late = float(np.sqrt(max(lag.spread, 0.0)))
        delay = lag.lag - late
        force, rate, second = rows.force, rows.force_rate, self.second
        if delay:
            force, rate, second = earlier(self.whole, self.step, rows.time + rows.span * 1e3 + delay)
        force, rate = force + late * rate, rate + late * second
        nothing = np.zeros(len(rows))
        if state.x is None or not self.timed:
            return Valve(force, rate, second, nothing, nothing, rows.velocity)
        amount = state.x[self.size : self.size + len(self.static)]
        if early:
            amount = np.where([bool(e.kind) for e in self.static], 0.0, amount)
        other, other_rate = amount @ self.fixed, amount @ self.fixed_rate
        soft = 1.0 / (1.0 + np.abs(force - other) / a.AIR_FORCE) ** 2
        velocity = rows.velocity - (lag.give + lag.air * soft) * (rate - other_rate)
        return Valve(force, rate, second, other_rate, soft, velocity)

    def _of_damping(self, smooth: FloatArray, gain: float, known: FloatArray) -> list[Effect]:
        """Return what scales damping: fade by time and by work, a guide that rubs, temperature, the luck of turns.

        `known` holds what the state has of them, in their order, none after a first step.
        """
        rows = self.rows
        falls = [Effect(f"fade by {name}", -smooth * by, a.FADE, True)
                 for name, by in (("time", self.clock), ("work", self.work))]  # fmt: skip
        out = [*falls, Effect("growth", smooth * self.clock, a.GROWTH)]
        fade = known[: len(falls)] @ [self.clock, self.work] if len(known) else np.zeros(len(rows))
        speed = np.abs(rows.velocity)
        out.append(Effect("fade less", smooth * fade * speed / (speed + a.FADE_LESS_FROM), a.FADE_LESS_SD, True,
                          mean=a.FADE_LESS))  # fmt: skip
        # By the damping as fitted: the measured force would bring its own noise into the column.
        out += [Effect("side load", smooth * self.angle, a.SIDE_LOAD, True, "side")] if self.reach else []
        if self.warms and rows.temperature is not None:
            out.append(Effect("drift", smooth * (rows.temperature - rows.temperature.mean()), a.DRIFT))
        out += [Effect(f"gain {b}", smooth * mine, gain / root, kind="gain") for b, mine, root in self.blocks]
        return out

    @cached_property
    def _by_row(self) -> tuple[FloatArray, FloatArray]:
        """The fixed effects and their rates as they are laid out: those of some rows lie the other way round."""
        if len(self.rows) > _TURNED:
            return self.fixed, self.fixed_rate
        return np.ascontiguousarray(self.fixed), np.ascontiguousarray(self.fixed_rate)

    @cached_property
    def place(self) -> IntArray:
        """The phase of each row."""
        return phases(self.rows)

    @cached_property
    def blocks(self) -> list[tuple[int, BoolArray, float]]:
        """Each block's number, which rows are its, shape (n,), and the root of how many turns it holds. [1]"""
        rows, out = self.rows, []
        for b in np.unique(rows.block):
            mine = rows.block == b
            out.append((int(b), mine, float(np.sqrt(max(len(np.unique(rows.cycle[mine])), 1)))))
        return out


def _clocks(rows: Rows) -> tuple[FloatArray, FloatArray]:
    """Return time and work done, each from start to end one apart and of mean zero over time, shape (n,)."""
    dt = np.clip(np.diff(rows.time, append=rows.time[-1:]), 0.0, None)
    weight = dt + 1e-12
    time = (rows.time - rows.time.mean()) / (np.ptp(rows.time) + 1e-12)
    work = (rows.work - rows.work[0]) / (np.ptp(rows.work) + 1e-12)
    return time - np.average(time, weights=weight), work - np.average(work, weights=weight)
