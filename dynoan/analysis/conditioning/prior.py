"""The joint fit's normal equations with its priors: how slopes, friction and all else are expected to be."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.columns import Columns, Linear
from dynoan.analysis.conditioning.effects import Effect, positive
from dynoan.analysis.conditioning.posterior import bounded
from dynoan.analysis.conditioning.shape import centres, smoothness
from dynoan.analysis.conditioning.state import State
from dynoan.model.arrays import BoolArray, FloatArray


@dataclass(frozen=True)
class Normal:
    """Normal equations in steps of the splines and coefficients of the effects."""

    gram: FloatArray
    load: FloatArray
    held: BoolArray  #: may not be negative
    turn: FloatArray  #: from those to spline weights and coefficients
    steps: FloatArray  #: that the sizes of the slopes are taken from [N]
    effects: list[Effect]
    power: float  #: weighted sum of squares of what is explained
    even: FloatArray  #: rows that tie both directions together near zero speed, shape (2, p)
    roots: dict[float, FloatArray]  #: of the precision of the steps, by exponent, as far as worked out


@dataclass(frozen=True)
class Kind:
    """One set of expectations."""

    exponent: float = 0.0  #: of the slope near zero speed
    friction: float = a.FRICTION_SPREAD  #: of all laws together, standard deviation [N]
    usual: float = a.USUAL_FRICTION  #: and mean [N]
    yields: bool = True  #: whether the fluid may yield
    early: bool = False  #: whether friction laws that can look like lag are left out
    laws: tuple[str, ...] = ("turn", "slide")  #: what turns friction around
    breakaway: float = a.BREAKAWAY_SCALE  #: standard deviation of each such law [N]


@dataclass(frozen=True)
class Posterior:
    """The answer under one set of expectations."""

    x: FloatArray
    evidence: float  #: logarithm, up to what the data alone make
    gram: FloatArray  #: scaled, priors in
    load: FloatArray  #: scaled
    size: FloatArray  #: what they are scaled by


def normal(columns: Columns, linear: Linear, weight: FloatArray, state: State) -> Normal:
    """Return the normal equations of a linearised problem under weights of the rows, shape (n,) [1/N²]."""
    steps = columns.guess if state.steps is None else state.steps
    gram, load = linear.lines.normal(linear.y, weight)
    n = columns.size
    turn = np.eye(len(load))
    turn[:n, :n] = columns.to_weights
    held = np.concatenate([np.ones(n, dtype=bool), positive(linear.effects)])
    return Normal(
        turn.T @ gram @ turn, turn.T @ load, held, turn, steps, linear.effects,
        float(np.sum(weight * linear.y**2)), _even(columns, linear.effects, steps, state), {},
    )  # fmt: skip


def _even(columns: Columns, effects: list[Effect], steps: FloatArray, state: State) -> FloatArray:
    """Return rows that hold damping of both directions near zero speed to be about as strong, shape (2, p).

    Nearly the same bleeds and leaks pass the oil there; without this a fluid that yields leaves the zero open.
    """
    n, k = columns.size, columns.sizes[0]
    out = np.zeros((2, n + len(effects)))
    for sign, edges, first in ((1.0, columns.edges[0], 0), (-1.0, columns.edges[1], k)):
        out[0, first : first + len(edges)] = sign * (centres(edges) < a.EVEN_BELOW)
    out[0] /= a.EVEN_SHARE * 0.5 * float(np.sum(np.abs(out[0, :n]) * steps)) + a.EVEN_AT_LEAST
    yields = n + np.flatnonzero([e.kind == "yield" for e in effects])
    out[1, yields] = np.repeat((1.0, -1.0), len(yields) // 2)
    # The state knows the effects in the same order, but for what a first step leaves out at the end.
    known = np.zeros(n + len(effects)) if state.x is None else np.resize(state.x, n + len(effects))
    level = 0.5 * float(np.sum(known[yields])) if state.x is not None else columns.peak
    out[1] /= a.EVEN_SHARE * max(level, 0.0) + a.EVEN_AT_LEAST
    return out


def _smooth(columns: Columns, problem: Normal, exponent: float) -> FloatArray:
    """Return the root of the precision of the steps of both directions, shape (n, n). [1/N]"""
    if exponent not in problem.roots:
        n, k = columns.size, columns.sizes[0]
        root = np.zeros((n, n))
        root[:k, :k] = smoothness(columns.edges[0], problem.steps[:k], exponent)
        root[k:, k:] = smoothness(columns.edges[1], problem.steps[k:], exponent)
        problem.roots[exponent] = root
    return problem.roots[exponent]


def posterior(columns: Columns, problem: Normal, kind: Kind, start: BoolArray | None = None) -> Posterior:
    """Return the best coefficients, their evidence and the scaled system under one set of expectations.

    `start` tells which coefficients are not at zero in an answer near this one.
    """
    n = columns.size
    gram, load = problem.gram, problem.load
    root = np.zeros_like(gram)
    at = np.arange(n, len(load))
    root[at, at] = [1.0 / (e.prior * _share(e, kind)) for e in problem.effects]
    root[:n, :n] = _smooth(columns, problem, kind.exponent)
    rub = np.array([e.kind == "friction" for e in problem.effects])
    total = np.concatenate([np.zeros(n), rub / kind.friction])
    full = gram + root.T @ root + np.outer(total, total) + problem.even.T @ problem.even
    size = np.sqrt(np.diag(full)) + 1e-12
    full = full / np.outer(size, size) + 1e-9 * np.eye(len(size))
    usual = 0.0 if kind.early else kind.usual / kind.friction
    scaled = (load + usual * total) / size
    x = bounded(full, scaled, problem.held, start)
    narrower = 0.5 * np.log1p(float(np.sum((total / np.diag(root)) ** 2)))
    volume = (
        np.sum(np.log(np.abs(np.diag(root)))) - np.sum(np.log(np.diag(np.linalg.cholesky(full)))) - np.sum(np.log(size))
    )
    evidence = float(volume + narrower + scaled @ x - 0.5 * x @ full @ x - 0.5 * usual**2)
    return Posterior(x / size, evidence, full, scaled, size)


def _share(effect: Effect, kind: Kind) -> float:
    """Return the share of an effect's prior that is left under one set of expectations."""
    if effect.kind == "yield" and not kind.yields:
        return a.SHUT
    if effect.kind == "friction" and effect.name not in kind.laws and effect.name.split()[0] not in kind.laws:
        return a.SHUT
    if effect.kind == "breakaway" and not kind.early:
        return kind.breakaway / effect.prior
    return 1e-7 if kind.early and effect.late else 1.0
