"""One way to explain a record under sets of expectations: how its damping starts, and which friction rubs."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.columns import Columns
from dynoan.analysis.conditioning.separating.expectations import Kind
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
        larger = self.columns.larger
        return Kind(larger * law.spread, larger * law.usual, yields, laws=law.laws,
                    breakaway=law.breakaway * self.level, away=law.away, level=self.level, side=side,
                    even=even)  # fmt: skip

    def split(self, starts: Starts, rub: int, *, apart: bool) -> list[tuple[float, Posterior]]:
        """Return the answers of a set of expectations by whether a guide rubs, each with its chance. [1]

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
