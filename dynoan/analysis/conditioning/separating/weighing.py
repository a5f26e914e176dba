"""Sets of expectations weighed by evidence, and draws of what a record leaves open under each, as likely as it is.

How damping starts from zero, each direction by itself, and which friction law rubs, are expectations that no record
of few slow cycles can settle. All are tried that have hope; their evidence says how much each counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.columns import Columns
from dynoan.analysis.conditioning.samples.rows import one_speed
from dynoan.analysis.conditioning.separating.doubt import doubt
from dynoan.analysis.conditioning.separating.expectations import Kind
from dynoan.analysis.conditioning.separating.one_to_a_record import either_way, lopsided, middle_of_either
from dynoan.analysis.conditioning.separating.posterior import draws
from dynoan.analysis.conditioning.separating.prior import Normal, Posterior, posterior
from dynoan.model.arrays import BoolArray, FloatArray

Starts = tuple[float, float]  #: exponents of either direction, or one of `HOLDING` for both
HOLDING = (a.YIELDS, a.ONE_YIELDS)  #: starts that stand from the first mm/s on
COMMON = dict(zip(a.STARTS, a.STARTS_PRIOR, strict=True))
BLEEDING = tuple(start for start in a.STARTS if start not in HOLDING)


@dataclass
class Tried:
    """What was tried of one way to explain a record, with the logarithm of how likely each is."""

    columns: Columns
    problem: Normal
    level: float  #: about how strong friction is [N]
    temper: float  #: share of the evidence that is believed
    side: float = 0.0  #: chance that a guide rubs under side load
    found: dict[tuple[Starts, int], tuple[Posterior, float]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Note which effects are friction's and which are a yielding fluid's."""
        kinds = [effect.kind for effect in self.problem.effects]
        self.friction = np.array([kind in ("friction", "breakaway", "flex") for kind in kinds])
        self.yields = np.array([kind == "yield" for kind in kinds])

    def score(self, starts: Starts, rub: int) -> float:
        """Return the score of two starts and a kind of friction, by its number. [1]"""
        if (starts, rub) not in self.found:
            kind = self.kind(starts, rub, side=self.side > 0.5)
            one = posterior(self.columns, self.problem, kind, _exponents(starts), self._near(starts, rub))
            common = np.log(_common(starts) * a.FRICTION_KINDS[rub].common)
            self.found[starts, rub] = one, float(common + one.evidence - 0.5 * self.problem.power)
        return self.found[starts, rub][1]

    def in_order(self) -> Tried:
        """Return the same, first starts by kind of friction, then as tried: draws must not hang on what came first."""
        first = {(start, start): i for i, start in enumerate(a.FIRST_STARTS)}
        place = {one: i for i, one in enumerate(self.found)}
        order = sorted(place, key=lambda one: (0, one[1], first[one[0]]) if one[0] in first else (1, place[one], 0))
        return replace(self, found={one: self.found[one] for one in order})

    def _near(self, starts: Starts, rub: int) -> BoolArray | None:
        """Return which coefficients are not at zero in the answer most like that of two starts and a kind of friction.

        Where its friction is of another kind, or one fluid yields and the other does not, those count as not at zero.
        """
        if not self.found:
            return None
        most, (first, second) = -1.0, starts
        for (up, down), law in self.found:
            like = (law == rub) + 0.5 * ((up == first) + (down == second))
            if like > most:
                most, known, kind = like, (up, down), law
                if like == 1.5:  # no other can be more like it
                    break
        near = self.found[known, kind][0].x > 0
        if kind != rub:
            near[self.columns.size :] |= self.friction
        if (known[0] in HOLDING) != (starts[0] in HOLDING):
            near[self.columns.size :] |= self.yields
        return near

    def kind(self, starts: Starts, rub: int, *, side: bool) -> Kind:
        """Return what is expected by two starts, a kind of friction, and a guide that rubs under side load or not."""
        yields, law = starts[0] in HOLDING, a.FRICTION_KINDS[rub]
        alike = starts[0] == starts[1] != a.ONE_YIELDS
        even = a.EVEN_SHARE if alike else a.UNEVEN_SHARE
        return Kind(law.spread, law.usual, yields, laws=law.laws,
                    breakaway=law.breakaway * self.level, away=law.away, level=self.level, side=side,
                    even=even)  # fmt: skip

    def split(self, starts: Starts, rub: int, *, apart: bool) -> list[tuple[float, Posterior]]:
        """Return the answers of a set of expectations by whether a guide rubs, each with its chance.

        Where one of both has no hope, or the set needs not be taken `apart`, the one that was tried stands for both.
        """
        known, likely = self.found[starts, rub][0], self.side > 0.5
        rest = min(self.side, 1 - self.side)
        if not apart or rest < a.NO_DRAW:
            return [(1.0, known)]
        kind = self.kind(starts, rub, side=not likely)
        other = posterior(self.columns, self.problem, kind, _exponents(starts), known.x > 0)
        return [(1 - rest, known), (rest, other)]

    def alike(self) -> FloatArray:
        """Try both directions alike, and return the best score of each kind of friction, shape (kinds,). [1]

        Kinds that have no hope with one start, or with some, are left out of the others.
        """
        kinds = np.arange(len(a.FRICTION_KINDS))
        best = np.array([self.score((a.LOOSEST, a.LOOSEST), int(rub)) for rub in kinds])
        for rub in kinds[best > best.max() - a.DEAD / self.temper]:
            best[rub] = max(self.score((start, start), int(rub)) for start in a.FIRST_STARTS)
        rest = [start for start in a.STARTS if start not in a.FIRST_STARTS]
        for rub in kinds[best > best.max() - a.NO_HOPE / self.temper]:
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


def _exponents(starts: Starts) -> Starts:
    """Return the exponents of two starts."""
    return (a.YIELDS_THEN, a.YIELDS_THEN) if starts[0] in HOLDING else starts


def _common(starts: Starts) -> float:
    """Return how common two starts are: valves of both directions are as often of one kind as not."""
    first, second = starts
    if first in HOLDING:
        return COMMON[first]
    return 0.5 * COMMON[first] * COMMON[second] + (0.5 * COMMON[first] if first == second else 0.0)


@dataclass(frozen=True)
class Drawn:
    """What a record leaves open of the coefficients. SI."""

    draws: FloatArray  #: shape (draws, p)
    middles: FloatArray  #: the weighed answers of each way to explain it, shape (ways, p)
    either: float  #: chance that a fluid yields and that some of what yields may be friction [1]


def drawn(columns: Columns, ways: Sequence[tuple[Normal, FloatArray]]) -> Drawn:
    """Return draws of the coefficients, under each set of expectations as often as it is likely.

    `ways` holds the normal equations of each way to explain the record, and the coefficients it settled at.
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
        middle = middle_of_either(one.problem, middle, slow[number]) if starts[0] in HOLDING else middle
        middles[number] += share * middle
        either += share * slow[number] if starts[0] in HOLDING else 0.0
        for (_, way), some in zip(split, _shared([part for part, _ in split], many), strict=True):
            if some:
                found = _draws(one.problem, way, rng.standard_normal((some, len(way.kept))))
                out.append(either_way(one.problem, found, slow[number], rng) if starts[0] in HOLDING else found)
    drawn_ = np.concatenate(out)
    parts = np.bincount([number for number, _, _ in sets], chance)
    # About the weighed answers themselves: the mean of few draws has luck in it.
    wider = doubt(chance, np.array([rub for _, _, rub in sets]), one_speed=alone)
    draws_ = middles.sum(axis=0) + wider * (drawn_ - drawn_.mean(axis=0))
    return Drawn(lopsided(tried[0].problem, draws_, rng), middles / parts[:, None], float(either))


def _tried(columns: Columns, problem: Normal, x: FloatArray, temper: float) -> Tried:
    """Return one way to explain the record under all sets of expectations that have hope."""
    tried = Tried(columns, problem, _level(columns, problem, x), temper)
    tried.side = _side_loaded(columns, problem, temper)
    best = tried.alike()
    for rub in np.argsort(-best)[: a.APART]:
        if best[rub] > best.max() - a.SOME_HOPE:
            tried.apart(int(rub))
    return tried


def _side_loaded(columns: Columns, problem: Normal, temper: float) -> float:
    """Return the chance that a guide rubs under side load, by the evidence with it and without. [1]"""
    if not any(e.kind == "side" for e in problem.effects):
        return 0.0
    rubs, plain = (posterior(columns, problem, Kind(side=side), (0.0, 0.0)).evidence for side in (True, False))
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
    out[:, one.kept] = draws(one.gram, one.load, problem.held[one.kept], normal) / one.size
    return out


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
    way = np.exp(a.TEMPER_OF_WAYS * (best - best.max()))
    way = a.EACH_WAY + (1 - a.EACH_WAY * len(way)) * way / way.sum()
    within = [np.exp(temper * (score - score.max())) for score in scores]
    return np.concatenate([share * one / one.sum() for share, one in zip(way, within, strict=True)])


def _level(columns: Columns, problem: Normal, x: FloatArray) -> float:
    """Return about how strong friction is. [N]"""
    rest = x[columns.size :]
    return max(sum(float(c) for e, c in zip(problem.effects, rest, strict=True) if e.kind == "friction"), 5.0)
