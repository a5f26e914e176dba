"""Where lags and friction of a record may lie: where to start from, for each way its damping may begin."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.columns import Columns
from dynoan.analysis.conditioning.forces.state import ALL_LAGS, LAGS, Lag, Stage, State
from dynoan.analysis.conditioning.separating import settling_assumptions as b
from dynoan.analysis.conditioning.separating.stepping import Taken, rounds


def starts(columns: Columns) -> list[tuple[State, Stage]]:
    """Return where to start from: the best of a coarse net of lags, then freed, for each way damping may begin.

    Where both ways come to the same, it is one.
    """
    rows = columns.rows
    early = Stage(ALL_LAGS, True, b.FRICTION_FIRST)
    first = rounds(columns, State(), 1.0 / rows.variance, 2, early)
    if not columns.timed:
        stages = [Stage(ALL_LAGS, yields=yields) for yields in (False, True)]
        return [(rounds(columns, first.state, first.weight, 2, stage).state, stage) for stage in stages]
    net = [Lag(lag, 0.0, give) for lag in b.LAG_NET for give in b.GIVE_NET if lag or give]
    ways = [first]
    for lag in net:
        ways.append(rounds(columns, replace(first.state, lag=lag), first.weight, 1, early, ways[-1].state.x))
    ways.sort(key=lambda way: way.loss)
    freed = replace(early, shut=())
    done = [rounds(columns, way.state, way.weight, 4, freed) for way in ways[: b.BASINS]]
    poor = min(done, key=lambda way: way.loss)
    # A bleed beside friction, and a valve that yields behind a spring, explain much the same: both are followed.
    begun = [(way, columns.at(way.state, a.TURN_SCATTER, shut=(), early=False)) for way in (poor, first)]
    ends = []
    for stage in (Stage(), Stage(yields=True)):
        both = [rounds(columns, way.state, way.weight, b.TRIED, stage, known=linear) for way, linear in begun]
        better = min(both, key=lambda way: way.loss)
        ends.append((rounds(columns, better.state, better.weight, b.FOLLOWED, stage), stage))
    (best, stage), (other, _) = ends = sorted(ends, key=lambda end: end[0].loss)
    apart = other.loss < b.TIE * best.loss and not _alike(columns, best, other, stage)
    return [(end.state, stage) for end, stage in (ends if apart else ends[:1])]


def _alike(columns: Columns, one: Taken, other: Taken, stage: Stage) -> bool:
    """Return whether two ways come to about as much friction, and to lags that make the same of force within its noise.

    `stage` is that of the first.
    """
    effects = columns.at(one.state, a.TURN_SCATTER, shut=stage.shut, early=stage.early).effects
    rub = columns.size + np.flatnonzero([effect.kind == "friction" for effect in effects])
    friction = [0.0 if end.state.x is None else float(np.sum(end.state.x[rub])) for end in (one, other)]
    late = [e.column * (getattr(one.state.lag, e.name) - getattr(other.state.lag, e.name))
            for e in effects if e.name in LAGS]  # fmt: skip
    off = np.sum(late, axis=0)
    return (
        abs(friction[0] - friction[1]) < b.RUB_ALIKE * columns.peak
        and float(np.mean((off - np.mean(off)) ** 2 / columns.rows.variance)) < b.LATE_ALIKE
    )
