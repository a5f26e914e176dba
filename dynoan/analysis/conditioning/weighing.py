"""Sets of expectations weighed by evidence, and draws of what a record leaves open under each, as likely as it is.

How damping starts from zero, each direction by itself, and which friction law rubs, are expectations that no record
of few slow cycles can settle. All are tried that have hope; their evidence says how much each counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.columns import Columns
from dynoan.analysis.conditioning.posterior import draws
from dynoan.analysis.conditioning.prior import Kind, Normal, Posterior, posterior
from dynoan.analysis.conditioning.rows import one_speed
from dynoan.model.arrays import FloatArray

Starts = tuple[float, float]  #: exponents of either direction, or `YIELDS` for both
COMMON = dict(zip(a.STARTS, a.STARTS_PRIOR, strict=True))
BLEEDING = tuple(start for start in a.STARTS if start != a.YIELDS)


@dataclass
class Tried:
    """What was tried of one way to explain a record, with the logarithm of how likely each is."""

    columns: Columns
    problem: Normal
    level: float  #: about how strong friction is [N]
    found: dict[tuple[Starts, int], tuple[Posterior, float]] = field(default_factory=dict)

    def score(self, starts: Starts, rub: int) -> float:
        """Return the score of two starts and a kind of friction, by its number. [1]"""
        if (starts, rub) not in self.found:
            near = next((one for (_, r), (one, _) in reversed(self.found.items()) if r == rub), None)
            kind = _kind(starts, a.FRICTION_KINDS[rub], self.level)
            one = posterior(self.columns, self.problem, kind, None if near is None else near.x > 0)
            common = np.log(_common(starts) * a.FRICTION_KINDS[rub].common)
            self.found[starts, rub] = one, float(common + one.evidence - 0.5 * self.problem.power)
        return self.found[starts, rub][1]

    def alike(self) -> FloatArray:
        """Try both directions alike, and return the best score of each kind of friction, shape (kinds,). [1]

        Kinds that have no hope with some starts are left out of the others.
        """
        kinds = np.arange(len(a.FRICTION_KINDS))
        best = np.array([max(self.score((start, start), int(rub)) for start in a.FIRST_STARTS) for rub in kinds])
        rest = [start for start in a.STARTS if start not in a.FIRST_STARTS]
        for rub in kinds[best > best.max() - a.NO_HOPE]:
            best[rub] = max(best[rub], *(self.score((start, start), int(rub)) for start in rest))
        return best

    def apart(self, rub: int) -> None:
        """Try directions that start differently, from the best start alike on, as far as they have hope."""
        base = max(BLEEDING, key=lambda start: self.score((start, start), rub))
        up = {start: self.score((start, base), rub) for start in BLEEDING}
        down = {start: self.score((base, start), rub) for start in BLEEDING}
        known = up[base]
        best = max(one for _, one in self.found.values())
        for first in BLEEDING:
            for second in BLEEDING:
                if up[first] + down[second] - known > best - a.SOME_HOPE:
                    self.score((first, second), rub)


def _kind(starts: Starts, rub: a.FrictionKind, level: float) -> Kind:
    yields = starts[0] == a.YIELDS
    return Kind((0.0, 0.0) if yields else starts, rub.spread, rub.usual, yields, laws=rub.laws,
                breakaway=rub.breakaway * level, away=rub.away, level=level)  # fmt: skip


def _common(starts: Starts) -> float:
    """Return how common two starts are: valves of both directions are as often of one kind as not."""
    first, second = starts
    if first == a.YIELDS:
        return COMMON[first]
    return 0.5 * COMMON[first] * COMMON[second] + (0.5 * COMMON[first] if first == second else 0.0)


def drawn(columns: Columns, ways: Sequence[tuple[Normal, FloatArray]]) -> FloatArray:
    """Return draws of the coefficients, under each set of expectations as often as it is likely, shape (draws, p). [SI]

    `ways` holds the normal equations of each way to explain the record, and the coefficients it settled at.
    """
    found: list[tuple[Normal, Posterior]] = []
    scores = []
    for problem, x in ways:
        tried = Tried(columns, problem, _level(columns, problem, x))
        best = tried.alike()
        for rub in np.argsort(-best)[: a.APART]:
            if best[rub] > best.max() - a.SOME_HOPE:
                tried.apart(int(rub))
        found += [(problem, one) for one, _ in tried.found.values()]
        scores.append(np.array([score for _, score in tried.found.values()]))
    chance = _chances(scores, a.TEMPER_ONE_SPEED if one_speed(columns.rows) else a.TEMPER)
    shares = np.diff(np.floor(np.cumsum(chance) * a.DRAWS + 0.5).astype(int), prepend=0)
    rng = np.random.default_rng(1)
    out = np.concatenate([
        _draws(problem, one, rng.standard_normal((many, len(one.kept))))
        for (problem, one), many in zip(found, shares, strict=True) if many
    ])  # fmt: skip
    # About the weighed answers themselves: the mean of few draws has luck in it.
    middle = chance @ np.array([one.x for _, one in found])
    return np.asarray(middle + a.TRACE_DOUBT * (out - out.mean(axis=0)))


def _draws(problem: Normal, one: Posterior, normal: FloatArray) -> FloatArray:
    """Return draws of all coefficients under one set of expectations, shape (draws, p)."""
    out = np.zeros((len(normal), len(problem.load)))
    out[:, one.kept] = draws(one.gram, one.load, problem.held[one.kept], normal) / one.size
    return out


def _chances(scores: Sequence[FloatArray], temper: float) -> FloatArray:
    """Return how likely each set of expectations is, way after way, by their scores, tempered within a way. [1]"""
    best = np.array([score.max() for score in scores])
    # Evidence is no better than the model: a way that is off in what none holds may yet be the true one.
    way = np.exp(a.TEMPER_OF_WAYS * (best - best.max()))
    way = a.EACH_WAY + (1 - a.EACH_WAY * len(way)) * way / way.sum()
    within = [np.exp(temper * (score - score.max())) for score in scores]
    return np.concatenate([share * one / one.sum() for share, one in zip(way, within, strict=True)])


def _level(columns: Columns, problem: Normal, x: FloatArray) -> float:
    """Return about how strong friction is. [N]"""
    rest = x[columns.size :]
    return max(sum(float(c) for e, c in zip(problem.effects, rest, strict=True) if e.kind == "friction"), 5.0)
