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
from dynoan.model.arrays import BoolArray, FloatArray, IntArray


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
    roots: dict[tuple[int, float], FloatArray]  #: of the precision of a side's steps, by exponent, as far as worked out


@dataclass(frozen=True)
class Kind:
    """One set of expectations."""

    exponents: tuple[float, float] = (0.0, 0.0)  #: of the slope near zero speed, compression's first
    friction: float = a.FRICTION_SPREAD  #: of all laws together, standard deviation [N]
    usual: float = a.USUAL_FRICTION  #: and mean [N]
    yields: bool = True  #: whether the fluid may yield
    early: bool = False  #: whether friction laws that can look like lag are left out
    laws: tuple[str, ...] = ("turn", "slide")  #: what turns friction around, by name or kind
    breakaway: float = a.BREAKAWAY_SCALE  #: standard deviation of each such law [N]
    away: tuple[str, ...] = ("breakaway",)  #: laws of breakaway, by name or kind
    level: float = a.USUAL_FRICTION  #: about how strong friction is [N]


@dataclass(frozen=True)
class Posterior:
    """The answer under one set of expectations."""

    x: FloatArray  #: zero where a coefficient is left out
    evidence: float  #: logarithm, up to what the data alone make
    kept: IntArray  #: coefficients that are not left out, in the order of what follows
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


def _smooth(columns: Columns, problem: Normal, exponents: tuple[float, float]) -> FloatArray:
    """Return the root of the precision of the steps of both directions, shape (n, n). [1/N]"""
    n, k = columns.size, columns.sizes[0]
    root = np.zeros((n, n))
    for side, (exponent, part) in enumerate(zip(exponents, (slice(0, k), slice(k, n)), strict=True)):
        if (side, exponent) not in problem.roots:
            problem.roots[side, exponent] = smoothness(columns.edges[side], problem.steps[part], exponent)
        root[part, part] = problem.roots[side, exponent]
    return root


def posterior(columns: Columns, problem: Normal, kind: Kind, start: BoolArray | None = None) -> Posterior:
    """Return the best coefficients, their evidence and the scaled system under one set of expectations.

    `start` tells which coefficients are not at zero in an answer near this one.
    """
    n = columns.size
    prior = np.array([_prior(e, kind) for e in problem.effects])
    kept = np.concatenate([np.arange(n), n + np.flatnonzero(prior > 0)])
    gram, load = problem.gram[np.ix_(kept, kept)], problem.load[kept]
    root = np.zeros_like(gram)
    root[:n, :n] = _smooth(columns, problem, kind.exponents)
    at = np.arange(n, len(kept))
    root[at, at] = 1.0 / prior[prior > 0]
    rub = np.array([e.kind == "friction" for e in problem.effects])[kept[n:] - n]
    total = np.concatenate([np.zeros(n), rub / kind.friction])
    away = np.array([e.kind == "breakaway" for e in problem.effects])[kept[n:] - n]
    tied = np.concatenate([np.zeros(n), away - a.BREAKAWAY_SHARE * rub]) * (
        0.0 if kind.early else 1.0 / kind.breakaway if away.any() else 0.0
    )
    even = problem.even[:, kept]
    full = gram + np.outer(total, total) + np.outer(tied, tied) + even.T @ even
    full[:n, :n] += root[:n, :n].T @ root[:n, :n]
    full[at, at] += root[at, at] ** 2
    size = np.sqrt(np.diag(full)) + 1e-12
    full = full / np.outer(size, size) + 1e-9 * np.eye(len(size))
    usual = 0.0 if kind.early or not rub.any() else kind.usual / kind.friction
    scaled = (load + usual * total) / size
    x = bounded(full, scaled, problem.held[kept], None if start is None else start[kept])
    ties = np.array([total, tied]) / np.diag(root)
    narrower = 0.5 * float(np.linalg.slogdet(np.eye(2) + ties @ ties.T)[1])
    volume = (
        np.sum(np.log(np.abs(np.diag(root)))) - np.sum(np.log(np.diag(np.linalg.cholesky(full)))) - np.sum(np.log(size))
    )
    evidence = float(volume + narrower + scaled @ x - 0.5 * x @ full @ x - 0.5 * usual**2)
    whole = np.zeros(len(problem.load))
    whole[kept] = x / size
    return Posterior(whole, evidence, kept, full, scaled, size)


def _prior(effect: Effect, kind: Kind) -> float:
    """Return the standard deviation of an effect under one set of expectations, zero where it is left out."""
    if (effect.kind == "yield" and not kind.yields) or (kind.early and effect.late):
        return 0.0
    if effect.kind == "friction" and not _among(effect.name, kind.laws):
        return 0.0
    if effect.kind == "breakaway":
        return (effect.prior if kind.early else kind.breakaway) if _among(effect.name, kind.away) else 0.0
    if effect.kind == "flex":
        return a.BRISTLE * kind.level if _among(effect.name.replace("flex", "slide"), kind.laws) else 0.0
    return effect.prior


def _among(name: str, laws: tuple[str, ...]) -> bool:
    return name in laws or name.split()[0] in laws
