"""The joint fit's normal equations with its priors: how slopes, friction and all else are expected to be."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.columns import Columns, Linear
from dynoan.analysis.conditioning.forces.effects import Effect
from dynoan.analysis.conditioning.forces.shape import smoothness
from dynoan.analysis.conditioning.forces.state import State
from dynoan.analysis.conditioning.separating.expectations import Kind, Listed, listed
from dynoan.analysis.conditioning.separating.posterior import bounded, log_volume
from dynoan.model.arrays import BoolArray, FloatArray, IntArray


@dataclass(frozen=True)
class Normal:
    """Normal equations in steps of the splines and coefficients of the effects."""

    gram: FloatArray
    load: FloatArray
    held: BoolArray  #: may not be negative
    steps: FloatArray  #: that the sizes of the slopes are taken from [N]
    effects: list[Effect]
    listed: Listed  #: the same
    power: float  #: weighted sum of squares of what is explained
    even: FloatArray  #: rows that tie both directions together near zero speed, shape (2, p)
    even_level: FloatArray  #: about what they compare, shape (2,) [N]
    smooth: dict[tuple[int, float], tuple[FloatArray, float]]  #: `_smooth` by side and exponent, as far as worked out
    bases: dict[Kind, Base]  #: `_base` by what is expected, whatever the exponents, as far as worked out


@dataclass(frozen=True)
class Base:
    """What one set of expectations makes of normal equations, however damping starts from zero."""

    kept: IntArray  #: coefficients that are not left out
    gram: FloatArray  #: with all priors but those on slopes
    load: FloatArray
    held: BoolArray
    usual: float  #: what friction is expected to be, in standard deviations [1]
    volume: float  #: of those priors, a logarithm


@dataclass(frozen=True)
class Posterior:
    """The answer under one set of expectations."""

    x: FloatArray  #: zero where a coefficient is left out
    evidence: float  #: logarithm, up to what the data alone make
    kept: IntArray  #: coefficients that are not left out, in the order of what follows
    gram: FloatArray  #: scaled, priors in
    load: FloatArray  #: scaled
    size: FloatArray  #: what they are scaled by


def normal(columns: Columns, linear: Linear, weight: FloatArray, state: State, kind: Kind | None = None) -> Normal:
    """Return the normal equations of a linearised problem under weights of the rows, shape (n,) [1/N²].

    With a `kind` they hold for that set of expectations alone: zero where it leaves coefficients out.
    """
    steps = columns.guess if state.steps is None else state.steps
    as_arrays = listed(linear.effects)
    gram, load = _summed(columns, linear, weight, None if kind is None else as_arrays.priors(kind) > 0)
    n, parts = columns.size, (slice(0, columns.sizes[0]), slice(columns.sizes[0], columns.size))
    # A step lifts all weights after it: sums from the end take the place of products with that triangle.
    lifted = [(array[part][::-1], 0) for array in (gram, load) for part in parts]
    for from_end, axis in [*lifted, *((gram[:, part][:, ::-1], 1) for part in parts)]:
        np.add.accumulate(from_end, axis=axis, out=from_end)
    held = np.concatenate([np.ones(n, dtype=bool), as_arrays.positive])
    even, level = _even(columns, linear.effects, steps, state)
    at_rest, force = columns.held.rows(linear.effects, float(level[1]) if state.x is not None else 0.0)
    gram[n:, n:] += at_rest.T @ at_rest
    load[n:] += at_rest.T @ force
    power = float(np.sum(weight * linear.y**2) + force @ force)
    return Normal(gram, load, held, steps, linear.effects, as_arrays, power, even, level, {}, {})


def _summed(
    columns: Columns, linear: Linear, weight: FloatArray, among: BoolArray | None
) -> tuple[FloatArray, FloatArray]:
    """Return the Gram matrix and the load by weights of the splines, zero for effects that are not `among` them."""
    if among is None:
        return linear.lines.normal(linear.y, weight)
    some = np.flatnonzero(among)
    kept = np.concatenate([np.arange(columns.size), columns.size + some])
    part, less = linear.lines.normal(linear.y, weight, some)
    whole = columns.size + len(linear.effects)
    gram, load = np.zeros((whole, whole)), np.zeros(whole)
    gram[kept[:, None], kept] = part
    load[kept] = less
    return gram, load


def _even(columns: Columns, effects: list[Effect], steps: FloatArray, state: State) -> tuple[FloatArray, FloatArray]:
    """Return rows that are the difference of both directions' damping near zero speed, by splines and by what yields.

    Shape (2, p), and about how much damping each of the two compares, shape (2,) [N].
    """
    n = columns.size
    out = np.zeros((2, n + len(effects)))
    out[0, :n] = columns.apart
    bleeds = 0.5 * float(np.sum(np.abs(out[0, :n]) * steps))
    yields = n + np.flatnonzero([e.kind == "yield" for e in effects])
    out[1, yields] = np.repeat((1.0, -1.0), len(yields) // 2)
    # The state knows the effects in the same order, but for what a first step leaves out at the end.
    known = np.zeros(n + len(effects)) if state.x is None else np.resize(state.x, n + len(effects))
    level = 0.5 * float(np.sum(known[yields])) if state.x is not None else columns.peak
    return out, np.array([bleeds, max(level, 0.0)])


def _smooth(columns: Columns, problem: Normal, exponents: tuple[float, float]) -> list[tuple[slice, FloatArray, float]]:
    """Return each direction's place among the steps, their precision [1/N²], and half the logarithm of its volume."""
    n, k = columns.size, columns.sizes[0]
    out = []
    for side, (exponent, part) in enumerate(zip(exponents, (slice(0, k), slice(k, n)), strict=True)):
        if (side, exponent) not in problem.smooth:
            edges, steps = columns.edges[side].tobytes(), problem.steps[part].tobytes()
            problem.smooth[side, exponent] = _precision(edges, steps, exponent, columns.steep)
        out.append((part, *problem.smooth[side, exponent]))
    return out


@lru_cache(maxsize=64)
def _precision(edges: bytes, steps: bytes, exponent: float, steep: float) -> tuple[FloatArray, float]:
    """Return the precision of steps [1/N²] and half the logarithm of its volume; a third are asked for twice."""
    root = smoothness(np.frombuffer(edges), np.frombuffer(steps), exponent, steep)
    return root.T @ root, float(np.sum(np.log(np.abs(np.diag(root)))))


def coefficients(
    columns: Columns, problem: Normal, kind: Kind, exponents: tuple[float, float], start: BoolArray | None = None
) -> FloatArray:
    """Return the best coefficients alone, as `posterior` has them, shape (p,). [SI]"""
    _, system = _system(columns, problem, kind, exponents)
    kept, full, scaled, size = system
    x = bounded(full, scaled, problem.bases[kind].held, None if start is None else start[kept])
    whole = np.zeros(len(problem.load))
    whole[kept] = x / size
    return whole


def posterior(
    columns: Columns, problem: Normal, kind: Kind, exponents: tuple[float, float], start: BoolArray | None = None
) -> Posterior:
    """Return the best coefficients, their evidence and the scaled system under one set of expectations.

    `exponents` are those of the slope near zero speed, compression's first; `start` tells which coefficients are not at
    zero in an answer near this one.
    """
    volume, (kept, full, scaled, size) = _system(columns, problem, kind, exponents)
    base = problem.bases[kind]
    x = bounded(full, scaled, base.held, None if start is None else start[kept])
    volume -= log_volume(full) + float(np.sum(np.log(size)))
    evidence = float(volume + scaled @ x - 0.5 * x @ full @ x - 0.5 * base.usual**2)
    whole = np.zeros(len(problem.load))
    whole[kept] = x / size
    return Posterior(whole, evidence, kept, full, scaled, size)


def _system(
    columns: Columns, problem: Normal, kind: Kind, exponents: tuple[float, float]
) -> tuple[float, tuple[IntArray, FloatArray, FloatArray, FloatArray]]:
    """Return the volume of the priors, and the coefficients kept, the scaled system and what it is scaled by."""
    if kind not in problem.bases:
        problem.bases[kind] = _base(columns, problem, kind)
    base = problem.bases[kind]
    full, volume, kept = base.gram.copy(), base.volume, base.kept
    for part, precision, size_of in _smooth(columns, problem, exponents):
        full[part, part] += precision
        volume += size_of
    diagonal = full.reshape(-1)[:: len(kept) + 1]
    size = np.sqrt(diagonal) + 1e-12
    full /= size[:, None]
    full /= size
    diagonal += 1e-9
    return volume, (kept, full, base.load / size, size)


def _base(columns: Columns, problem: Normal, kind: Kind) -> Base:
    """Return normal equations with all priors of a set of expectations but those on slopes."""
    n = columns.size
    prior = problem.listed.priors(kind)
    some = np.flatnonzero(prior > 0)
    kept, width = np.concatenate([np.arange(n), n + some]), prior[some]
    full = problem.gram.take(kept, 0).take(kept, 1)
    full.reshape(-1)[n * (len(kept) + 1) :: len(kept) + 1] += width**-2.0
    ties, usual = _ties(problem, kind, some)
    even = problem.even[:, kept] / (kind.even * problem.even_level + a.EVEN_AT_LEAST)[:, None]
    rows = np.zeros((4, len(kept)))
    rows[:2], rows[2:, n:] = even, ties
    full += rows.T @ rows
    wide = ties * width
    volume = 0.5 * float(np.log(np.linalg.det(np.eye(2) + wide @ wide.T))) - float(np.sum(np.log(width)))
    load = problem.load[kept] + usual * rows[2]
    load[n:] += problem.listed.mean[some] / width**2
    return Base(kept, full, load, problem.held[kept], usual, volume)


def _ties(problem: Normal, kind: Kind, some: IntArray) -> tuple[FloatArray, float]:
    """Return rows that hold all friction to what is usual, and breakaway to sliding friction, and the first one's goal.

    Over the effects numbered by `some`, shape (2, effects). [1/N], [1]
    """
    rub, away = problem.listed.rub[some], problem.listed.away[some]
    tied = (away - a.BREAKAWAY_SHARE * rub) / kind.breakaway if away.any() and not kind.early else 0.0 * rub
    usual = 0.0 if kind.early or not rub.any() else kind.usual / kind.friction
    return np.array([rub / kind.friction, tied]), usual
