"""Which dyno runs to pay for next: the ones that shrink the expected error of the click map most.

The hydraulic model, linearised at what is known so far, gives the covariance of ln(force) between any two settings. A
run at a candidate setting would take known amounts off the variance everywhere. The candidate that leaves the smallest
mean standard deviation over all settings, speeds and both directions is taken, then the next, given the first (average-
variance designs: A. C. Atkinson, A. N. Donev and R. D. Tobias, *Optimum Experimental Designs, with SAS*, Oxford 2007,
from memory).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.clickmap.asked.plan_model import PlanDirection, plan_direction, run_speeds
from dynoan.analysis.clickmap.assumptions.plan import LEVELS, WORTH_A_RUN
from dynoan.analysis.clickmap.tested.data import Tested
from dynoan.analysis.clickmap.tested.two_ways import counted_alike
from dynoan.errors import CallError
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.model.shock import Adjuster

#: mean absolute error over standard deviation of a Gaussian [1] (numerics): √(2/π)
MEAN_ABSOLUTE = float(np.sqrt(2 / np.pi))


@dataclass(frozen=True)
class PlannedRun:
    """One run to make."""

    from_closed: dict[str, int]
    gain: float  #: by how much it lowers the expected error [%]
    error_after: float  #: the expected error once it and those before it are in [%]
    speeds: tuple[float, ...]  #: peak speeds to run [m/s]
    worth_it: bool


@dataclass(frozen=True)
class Plan:
    """The next runs of a pack. Errors are the expected mean absolute error of force over all clicks and speeds."""

    pack: str
    runs: tuple[PlannedRun, ...]
    error_now: float  #: [%]
    error_after: float  #: [%]
    tests: int  #: settings tested so far

    @property
    def stop_after(self) -> int:
        """How many of the runs are worth their money."""
        return sum(run.worth_it for run in self.runs)


def plan(
    pack: str, adjusters: tuple[Adjuster, ...], tested: Sequence[Tested], *, count: int = 4, top: float = 0.5
) -> Plan:
    """Return the next runs of a pack that tell most.

    Parameters
    ----------
    pack, adjusters
        Its name, and the adjusters of the shocks that carry it.
    tested
        What was tested so far; may be empty.
    count
        How many runs to plan.
    top
        Highest speed to run where nothing was tested yet. [m/s]

    Raises
    ------
    CallError
        If `count` is not 1 to 50.
    """
    if not 1 <= count <= 50:
        raise CallError(f"wanted 1 to 50, found {count}", part="runs")
    tested, _ = counted_alike(adjusters, tested)
    models = {d: plan_direction(d, adjusters, tested, top) for d in DIRECTIONS}
    state = _State.start(models, adjusters)
    now = error = state.error()
    runs: list[PlannedRun] = []
    for _ in range(count):
        index, after = state.best()
        clicks = {a.name: int(state.levels[i][n]) for i, (a, n) in enumerate(zip(adjusters, index, strict=True))}
        state.take(index)
        gain = error - after
        speeds = run_speeds(models, clicks)
        runs.append(PlannedRun(clicks, gain, after, speeds, gain >= WORTH_A_RUN))
        error = after
    settings = {(t.shock, *sorted(t.from_closed.items())) for t in tested}
    return Plan(pack, tuple(runs), now, error, len(settings))


@dataclass
class _State:
    """Covariances of both directions over reference settings and candidates, as runs are taken."""

    adjusters: tuple[Adjuster, ...]
    levels: tuple[FloatArray, ...]  #: candidate positions of each adjuster
    models: Mapping[Direction, PlanDirection]
    covariance: dict[Direction, FloatArray]
    reference: dict[Direction, int]  #: how many rows are the reference
    left: dict[Direction, FloatArray]  #: variance of these that no run takes away

    @classmethod
    def start(cls, models: Mapping[Direction, PlanDirection], adjusters: tuple[Adjuster, ...]) -> _State:
        levels = tuple(np.unique(np.round(np.linspace(0, a.clicks, LEVELS))) for a in adjusters)
        rng = np.random.default_rng(20)
        everywhere = np.stack([rng.integers(0, a.clicks + 1, 96).astype(float) for a in adjusters], axis=1) \
            if adjusters else np.zeros((1, 0))  # fmt: skip
        covariance: dict[Direction, FloatArray] = {}
        reference: dict[Direction, int] = {}
        left: dict[Direction, FloatArray] = {}
        for direction, model in models.items():
            own = [i for i, a in enumerate(adjusters) if a.name in model.names]
            order = [model.names.index(adjusters[i].name) for i in own]
            points = _grid([levels[i] for i in own])
            both = np.vstack([everywhere[:, own], points])[:, np.argsort(order)]
            covariance[direction] = model.posterior(both)
            reference[direction] = len(everywhere) * len(model.speeds)
            left[direction] = model.left(both[: len(everywhere)])
        return cls(adjusters, levels, models, covariance, reference, left)

    def error(self) -> float:
        """Return the expected mean absolute error now. [%]"""
        sds = [np.sqrt(np.diag(self.covariance[d])[: self.reference[d]] + self.left[d]).mean() for d in DIRECTIONS]
        return 100 * MEAN_ABSOLUTE * float(np.mean(sds))

    def best(self) -> tuple[tuple[int, ...], float]:
        """Return the candidate that leaves the smallest error, as level numbers, and that error. [%]"""
        total: FloatArray = np.zeros([1] * len(self.adjusters))
        for direction in DIRECTIONS:
            shape = [
                len(x) if a.name in self.models[direction].names else 1
                for a, x in zip(self.adjusters, self.levels, strict=True)
            ]
            total = total + self._after(direction).reshape(shape) / 2
        total = np.broadcast_to(total, [len(x) for x in self.levels])
        # Where several do as well, the one nearest to the middle is the least trouble.
        best = int(np.argmin(np.round(total, 9)))
        return tuple(int(n) for n in np.unravel_index(best, total.shape)), 100 * MEAN_ABSOLUTE * float(total.flat[best])

    def _after(self, direction: Direction) -> FloatArray:
        """Return the mean standard deviation over the reference after a run at each candidate, (C,)."""
        cov, n = self.covariance[direction], self.reference[direction]
        noise, s = self.models[direction].noise, len(self.models[direction].speeds)
        blocks = np.arange(n, len(cov)).reshape(-1, s)
        own = cov[blocks[:, :, None], blocks[:, None, :]] + noise
        cross = cov[:n, n:].reshape(n, -1, s).transpose(1, 2, 0)
        taken = np.einsum("csr,csr->cr", cross, np.linalg.solve(own, cross))
        kept = np.maximum(np.diag(cov)[:n] - taken, 1e-10) + self.left[direction]
        return np.asarray(np.sqrt(kept).mean(axis=1))

    def take(self, index: tuple[int, ...]) -> None:
        """Take a run as made."""
        for direction in DIRECTIONS:
            model, cov, n = self.models[direction], self.covariance[direction], self.reference[direction]
            own = [i for i, a in enumerate(self.adjusters) if a.name in model.names]
            shape = [len(self.levels[i]) for i in own]
            number = int(np.ravel_multi_index([index[i] for i in own], shape)) if own else 0
            s = len(model.speeds)
            rows = slice(n + number * s, n + (number + 1) * s)
            gain = np.linalg.solve(cov[rows, rows] + model.noise, cov[rows])
            self.covariance[direction] = cov - cov[:, rows] @ gain


def _grid(levels: Sequence[FloatArray]) -> FloatArray:
    if not levels:
        return np.zeros((1, 0))
    return np.stack([g.ravel() for g in np.meshgrid(*levels, indexing="ij")], axis=1)
