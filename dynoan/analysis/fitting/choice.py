"""How many knees, and which pieces bend: an information criterion over exact optima."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import groupby

import numpy as np

from dynoan.analysis.fitting.assumptions import (
    BEND_WORTH,
    CHOICE_CANDIDATES,
    CLOSE,
    HOPE,
    KNEE_WORTH,
    LEAST_ERROR,
    LEAST_WIDTH,
    PATTERNS,
    POSITIVE,
    ROUGH,
    STARTS,
)
from dynoan.analysis.fitting.monotone import falls_between, hold_up, monotone, rises
from dynoan.analysis.fitting.power import as_power
from dynoan.analysis.fitting.row_by_row import row_by_row
from dynoan.analysis.knees.assumptions import MOST_KNEES
from dynoan.analysis.knees.broken_line import BrokenStick, stick_at
from dynoan.analysis.knees.moments import Moments, cost, moments
from dynoan.analysis.knees.polish import polish, settle
from dynoan.analysis.knees.search import KnotGrid, search
from dynoan.model.arrays import BoolArray, FloatArray


@dataclass(frozen=True)
class Model:
    """One model that was tried."""

    stick: BrokenStick
    score: float  #: the criterion it was judged by, lower is better
    evidence: float  #: Akaike's criterion for few points


@dataclass(frozen=True)
class Judge:
    """What makes a model of a curve: its score and evidence by its sum of squares."""

    n: int  #: points
    known: bool  #: whether the weights are one over true variances
    trust: int  #: as how many points' word the weights count where they are not known
    floor: float  #: least sum of squares: below it lies rounding, or what says nothing

    def __call__(self, stick: BrokenStick, *, on_rows: bool = False) -> Model:
        """Return the model of a curve; of one whose knees are the rows themselves nobody searched for their places."""
        worth = len(stick.values) - 1 if on_rows else _worth(stick.bent)
        sse, n = max(stick.sse, self.floor) + self.trust, self.n + self.trust
        misfit = sse if self.known else n * float(np.log(sse / n))
        score = misfit + worth * float(np.log(n)) if self.known else criterion(sse, n, worth)
        real = (worth if on_rows else stick.parameters) + 1
        return Model(stick, score, misfit + 2 * real + _few(real, n))


@dataclass(frozen=True)
class Choice:
    """The model chosen, and what the others were worth."""

    stick: BrokenStick
    score: float
    models: tuple[Model, ...]  #: all that were tried


def patterns(most: int, *, bends: bool) -> list[BoolArray]:
    """Return which pieces bend in the models tried, up to a number of knees."""
    tried = [p for p in PATTERNS if len(p) <= most + 1 and (bends or "b" not in p)]
    return [np.array([piece == "b" for piece in p]) for p in tried]


def choose(
    speed: FloatArray, force: FloatArray, weight: FloatArray, *, known: bool = False, bends: bool = True,
    trust: int = 0, spare: float = 0.0,
) -> Choice:  # fmt: skip
    """Return the best continuous curve through zero with 0 to 3 knees and straight or bent pieces.

    Parameters
    ----------
    speed, force, weight
        Of one direction, magnitudes, shape (n,).
    known
        Whether the weights are one over true variances; else one common factor is estimated.
    bends
        Whether bent pieces are tried.
    trust
        As how many points' word the given weights count beside the points' own, where they are not known.
    spare
        Weighted sum of squares that what was taken out of the points may have left: less than that speaks for no knee.

    Notes
    -----
    Schwarz' criterion (1978), ``n ln(SSE/n) + p ln n`` (or ``χ² + p ln n`` where variances are known), a knee counted
    as three parameters: with two it takes knees that are not there, since the search over its place is not free.
    Few points that may scatter by any amount carry next to no knee; `trust` points with the scatter expected are added.
    """
    n = len(speed)
    most = max(0, min(MOST_KNEES, (n - 2) // 3), int(trust > 0 and n > 3))
    m = moments(speed, force, weight, pinned=True, bends=bends)
    least = max(2, min(6, n // 12))
    grid = KnotGrid(m, _candidates(m), least, LEAST_WIDTH)
    floor = max(spare, LEAST_ERROR**2 * (float(np.sum(weight * force**2)) + 1e-300))
    tried = [bent for bent in patterns(most, bends=bends and n + trust >= 6) if _worth(bent) < n + trust - 1]
    judge = Judge(n, known, trust, floor)
    models: list[Model] = []
    best = None
    for _, group in groupby(tried, key=len):
        # Where variances are known, a model that would lose with no misfit at all is not worth a search.
        worth_it = [bent for bent in group if best is None or not known or _worth(bent) * np.log(n) < best.score]
        for knees, bent, sse in _optima(m, worth_it, grid):
            models.append(judge(replace(stick_at(m, knees, bent), sse=sse * m.scale**2)))
        best = min(models, key=lambda model: model.score)
    assert best is not None
    bent, knees = best.stick.bent, (best.stick.knees - m.lo) / m.width
    fine = polish(m, knees[None], bent, least, LEAST_WIDTH, CLOSE)[0] if len(knees) else knees
    points = (speed, force, weight)
    chosen = monotone(stick_at(m, fine, bent), points)
    if trust and falls_between(chosen, force):
        # Rows rise all the way: of all models held up the likeliest, for the place of knees was chosen to fall.
        held = [judge(hold_up(model.stick, *points)) for model in models]
        best = min(held, key=lambda model: model.score)
        chosen = best.stick
    power = _power(models, chosen, points, best.score, judge) if bends else None
    found = Choice(chosen, best.score, tuple(models))
    if power is not None:
        found = Choice(power.stick, power.score, (*models, power))
    through = row_by_row(speed, force, weight) if trust else None
    if through is None:
        return found
    by_rows = judge(through, on_rows=True)
    if by_rows.score >= found.score:
        return found
    return Choice(monotone(through, points), by_rows.score, (*found.models, by_rows))


def _power(
    models: list[Model], chosen: BrokenStick, points: tuple[FloatArray, FloatArray, FloatArray], score: float,
    judge: Judge,
) -> Model | None:  # fmt: skip
    """Return the model whose first piece is a power law, where the evidence for it is positive; else None.

    Tried are the counterparts of what was chosen and of the best parabolas with fewer pieces.
    """
    fewer: dict[int, BrokenStick] = {}
    for model in sorted(models, key=lambda model: -model.score):
        if model.stick.bent[0] and len(model.stick.bent) < len(chosen.bent):
            fewer[len(model.stick.bent)] = model.stick
    width = LEAST_WIDTH * float(chosen.knots[-1])
    parabolas = [stick for stick in (chosen, *fewer.values()) if stick.bent[0] and stick.values[1] > 0]
    rough = [judge(as_power(stick, points, width, ROUGH)) for stick in parabolas]
    fine = [judge(as_power(model.stick, points, width)) for model in rough if model.score < score + HOPE]
    found = min((model for model in fine if rises(model.stick)), key=lambda model: model.score, default=None)
    return found if found is not None and found.score < score - POSITIVE else None


def _candidates(m: Moments) -> FloatArray:
    """Return every point where they are few, else a quarter of those of a lone fit: the winner is polished anyway."""
    points = np.unique(m.z)
    return (
        points[1:-1] if len(points) <= CHOICE_CANDIDATES + 2 else points[1:-1][:: -(-len(points) // CHOICE_CANDIDATES)]
    )


def _optima(m: Moments, models: list[BoolArray], grid: KnotGrid) -> Iterator[tuple[FloatArray, BoolArray, float]]:
    """Yield the knees, the bends and the cost of models with as many knees; they settle in one go."""
    if models and len(models[0]) == 1:
        yield from ((np.empty(0), bent, float(cost(m, np.empty((1, 0)), bent)[0])) for bent in models)
        return
    starts = [search(grid, bent, STARTS)[0] for bent in models]
    owner = np.repeat(np.arange(len(models)), [len(s) for s in starts])
    if not len(owner):
        return
    knees, costs = settle(m, np.concatenate(starts), np.array(models)[owner], grid.least, grid.width)
    for i, bent in enumerate(models):
        mine = np.flatnonzero(owner == i)
        if len(mine):
            at = mine[int(np.argmin(costs[mine]))]
            yield knees[at], bent, float(costs[at])


def criterion(sse: float, n: int, worth: int) -> float:
    """Return the score of a model by its sum of squares over n points and parameters' worth; lower is better. [1]"""
    return n * float(np.log(sse / n)) + worth * float(np.log(n)) + _few(worth, n)


def _few(worth: int, n: int) -> float:
    """Return the small-sample term of Hurvich and Tsai (1989): without it ten points carry three knees."""
    return 2.0 * worth * (worth + 1) / max(n - worth - 1, 0.5)


def _worth(bent: BoolArray) -> int:
    return 1 + BEND_WORTH * int(np.sum(bent)) + KNEE_WORTH * (len(bent) - 1)
