"""Sets of expectations weighed by evidence, and draws of what a record leaves open under each, as likely as it is.

How damping starts from zero, each direction by itself, and which friction law rubs, are expectations that no record
of few slow cycles can settle. All are tried that have hope; their evidence says how much each counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.columns import Columns
from dynoan.analysis.conditioning.samples.rows import one_speed
from dynoan.analysis.conditioning.separating import settling_assumptions as b
from dynoan.analysis.conditioning.separating.doubt import doubt
from dynoan.analysis.conditioning.separating.expectations import Kind
from dynoan.analysis.conditioning.separating.one_to_a_record import (
    either_way,
    lopsided,
    middle_of_either,
    of_no_one_level,
    starting_unlike,
    valve_instead,
)
from dynoan.analysis.conditioning.separating.posterior import draws
from dynoan.analysis.conditioning.separating.prior import Normal, Posterior, posterior
from dynoan.analysis.conditioning.separating.tried import HOLDING, Starts, Tried
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Drawn:
    """What a record leaves open of the coefficients. SI."""

    draws: FloatArray  #: shape (draws, p)
    middles: FloatArray  #: the weighed answers of each way to explain it, shape (ways, p)
    either: float  #: chance that a fluid yields and that some of what yields may be friction [1]


def drawn(columns: Columns, ways: Sequence[tuple[Normal, FloatArray]], give: float = 0.0) -> Drawn:
    """Return draws of the coefficients, under each set of expectations as often as it is likely.

    `ways` holds the normal equations of each way to explain the record, and the coefficients it settled at; `give` is
    what the first finds in series with the valve. [m/N]
    """
    alone = one_speed(columns.rows)
    temper = a.TEMPER_ONE_SPEED if alone else a.TEMPER
    tried = [_tried(columns, problem, x, temper).in_order() for problem, x in ways]
    chance = _chances([np.array([score for _, score in one.found.values()]) for one in tried], temper)
    shares = np.diff(np.floor(np.cumsum(chance) * a.DRAWS + 0.5).astype(int), prepend=0)
    sets = [(number, starts, rub) for number, one in enumerate(tried) for starts, rub in one.found]
    rng = np.random.default_rng(1)
    middles, out, either = np.zeros((len(tried), len(tried[0].problem.load))), [], 0.0
    slow = [_slow(one) for one in tried]
    for (number, starts, rub), many, share in zip(sets, shares, chance, strict=True):
        one = tried[number]
        split = one.split(starts, rub, apart=many > 0)
        middle = split[0][1].x if len(split) == 1 else np.sum([part * way.x for part, way in split], axis=0)
        middle = middle_of_either(one.problem, middle, slow[number], columns.larger) if starts[0] in HOLDING else middle
        middles[number] += share * middle
        either += share * slow[number] if starts[0] in HOLDING else 0.0
        for (_, way), some in zip(split, _shared([part for part, _ in split], many), strict=True):
            if some:
                found = _draws(one.problem, way, rng.standard_normal((some, len(way.kept))))
                out.append(
                    either_way(one.problem, found, slow[number], rng, columns.larger)
                    if starts[0] in HOLDING
                    else valve_instead(one.problem, found, _holding(starts), rng, columns.larger)
                )
    drawn_ = np.concatenate(out)
    parts = np.bincount([number for number, _, _ in sets], chance)
    # About the weighed answers themselves: the mean of few draws has luck in it.
    wider = doubt(chance, np.array([rub for _, _, rub in sets]), one_speed=alone)
    draws_ = middles.sum(axis=0) + wider * (drawn_ - drawn_.mean(axis=0))
    names = [effect.name for effect in tried[0].problem.effects]
    draws_ = of_no_one_level(columns, lopsided(tried[0].problem, draws_, rng), names, rng, give)
    draws_ = starting_unlike(columns, draws_, names, rng)
    return Drawn(draws_, middles / parts[:, None], float(either))


def _tried(columns: Columns, problem: Normal, x: FloatArray, temper: float) -> Tried:
    """Return one way to explain the record under all sets of expectations that have hope."""
    tried = Tried(columns, problem, _level(columns, problem, x), temper)
    tried.side = _side_loaded(columns, problem, x, temper)
    best = tried.alike()
    for rub in np.argsort(-best)[: a.APART]:
        if best[rub] > best.max() - a.SOME_HOPE:
            tried.apart(int(rub))
    return tried


def _side_loaded(columns: Columns, problem: Normal, x: FloatArray, temper: float) -> float:
    """Return the chance that a guide rubs under side load, by the evidence with it and without. [1]"""
    if not any(e.kind == "side" for e in problem.effects):
        return 0.0
    rubs, plain = (posterior(columns, problem, Kind(side=side), (0.0, 0.0), x > 0).evidence for side in (True, False))
    odds = a.SIDE_LOADED / (1 - a.SIDE_LOADED) * np.exp(min(a.SIDE_EVIDENCE * temper * (rubs - plain), 50.0))
    return float(odds / (1 + odds))


def _shared(parts: Sequence[float], many: int) -> list[int]:
    """Return so many shared out by parts that add up to one."""
    if len(parts) == 1:
        return [many]
    return [int(k) for k in np.diff(np.floor(np.cumsum(parts) * many + 0.5), prepend=0.0)]


def _draws(problem: Normal, one: Posterior, normal: FloatArray) -> FloatArray:
    """Return draws of all coefficients under one set of expectations, shape (draws, p)."""
    out = np.zeros((len(normal), len(problem.load)))
    out[:, one.kept] = draws(one.gram, one.load, problem.held[one.kept], normal, one.x[one.kept]) / one.size
    return out


def _holding(starts: Starts) -> float:
    """Return how likely strong friction is a valve that holds from rest, which it is not beside a bleed. [1]"""
    return 0.0 if max(starts) >= a.LITTLE_LEAK else a.VALVE_INSTEAD


def _slow(tried: Tried) -> float:
    """Return how likely it is that friction turns around as slowly as a fluid yields, or is none. [1]"""
    sets = [(rub, score) for (starts, rub), (_, score) in tried.found.items() if starts[0] in HOLDING]
    if not sets:
        return 0.0
    chance = np.exp(a.SAME_TEMPER * (np.array([score for _, score in sets]) - max(score for _, score in sets)))
    slow = [_slowest(rub) >= a.SAME_SPEED for rub, _ in sets]
    return float(np.sum(chance[slow]) / np.sum(chance))


def _slowest(rub: int) -> float:
    """Return the highest speed over which a kind of friction turns around, endless where there is none. [m/s]"""
    laws = a.FRICTION_KINDS[rub].laws
    return max((float(law.split()[1]) for law in laws if law.startswith("turn")), default=0.0 if laws else np.inf)


def _chances(scores: Sequence[FloatArray], temper: float) -> FloatArray:
    """Return how likely each set of expectations is, way after way, by their scores, tempered within a way. [1]"""
    best = np.array([score.max() for score in scores])
    # Evidence is no better than the model: a way that is off in what none holds may yet be the true one.
    way = np.exp(b.TEMPER_OF_WAYS * (best - best.max()))
    way = b.EACH_WAY + (1 - b.EACH_WAY * len(way)) * way / way.sum()
    within = [np.exp(temper * (score - score.max())) for score in scores]
    return np.concatenate([share * one / one.sum() for share, one in zip(way, within, strict=True)])


def _level(columns: Columns, problem: Normal, x: FloatArray) -> float:
    """Return about how strong friction is. [N]"""
    rest = x[columns.size :]
    return max(sum(float(c) for e, c in zip(problem.effects, rest, strict=True) if e.kind == "friction"), 5.0)
