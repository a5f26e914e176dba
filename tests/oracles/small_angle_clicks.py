"""All clicks of one axle by the small-angle car, whose limit the search at large angles must meet.

Every setting of the axle is run, left and right alike, the other axle as it is. With many adjusters the first pass
takes a coarse time step and whatever could be best or on the trade-off line is run again with the fine one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from dynoan.analysis.launch.assumptions import COARSE_STEP, FINE, MOST_SETTINGS, TIE
from dynoan.analysis.launch.clicked import Clicked
from dynoan.analysis.launch.hinges import NOMINAL, AxleDamping, Hinges
from dynoan.analysis.launch.metrics import LEVEL
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.objectives import OBJECTIVES
from dynoan.analysis.launch.scene import Scene, level
from dynoan.analysis.launch.search import ClickSearch, pareto
from dynoan.analysis.launch.sides import Sides
from dynoan.errors import CallError
from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.curve import DIRECTIONS, Direction
from tests.oracles.small_angle.running import run_figures

AGAIN = 400  #: settings run again after a coarse pass, besides the trade-off line
SETTINGS_AT_ONCE = 16384  #: settings whose tables are held at a time (memory)


def best_clicks(
    half: HalfCar, scene: Scene, others: AxleDamping, clicked: Clicked, *,
    axle: str, objective: str, watch: Callable[[float], None] = lambda _: None,
) -> ClickSearch:  # fmt: skip
    """Return every setting of an axle with its figures, the best of them and the trade-off line.

    Parameters
    ----------
    half, scene
        The car, and what all settings meet alike.
    others
        Damping of the other axle, as it stays.
    clicked
        What the axle can be set to.
    axle
        "front" or "rear", the one to search.
    objective
        A key of `OBJECTIVES`. Equally good settings (`TIE`): the one nearest to what is on the car.
    watch
        Told the share done, 0 to 1.

    Raises
    ------
    CallError
        If the objective is unknown, the shocks have different adjusters, or there are too many settings.
    """
    _check(clicked, objective)
    clicks = np.array(list(product(*clicked.spans)), dtype=int)
    tables = {d: clicked.damping(d) for d in DIRECTIONS}
    coarse = len(clicks) > FINE
    first = replace(scene, step=max(COARSE_STEP, scene.step)) if coarse else scene
    run = _Runner(half, others, clicked, tables, axle)
    figures = run(first, clicks, watch)
    fine = np.full(len(clicks), not coarse)
    if coarse:
        again = _worth_another(figures, objective)
        for name, values in run(scene, clicks[again], watch).items():
            figures[name][again] = values
        fine[again] = True
    now = clicked.row_now(clicks)
    front = _front(figures, objective, fine)
    return ClickSearch(objective, clicked.adjusters, clicks, figures, _best(figures, objective, clicks, fine, now), now,
                  front, fine)  # fmt: skip


def _check(clicked: Clicked, objective: str) -> None:
    if objective not in OBJECTIVES:
        raise CallError(f"'{objective}' is not one of {', '.join(OBJECTIVES)}", part="best")
    if any(m.adjusters != clicked.maps[0].adjusters for m in clicked.maps):
        raise CallError("the shocks of this axle have different adjusters; the search turns both alike")
    count = int(np.prod([len(span) for span in clicked.spans]))
    if not clicked.adjusters or not 1 < count <= MOST_SETTINGS:
        raise CallError(f"pack {clicked.maps[0].pack} has {count} settings to search; wanted 2 to {MOST_SETTINGS}")


@dataclass(frozen=True)
class _Runner:
    half: HalfCar
    others: AxleDamping
    clicked: Clicked
    tables: Mapping[Direction, Hinges]
    axle: str

    def __call__(self, scene: Scene, clicks: IntArray, watch: Callable[[float], None]) -> dict[str, FloatArray]:
        parts = []
        for start in range(0, len(clicks), SETTINGS_AT_ONCE):
            parts.append(self._figures(scene, self._sides(clicks[start : start + SETTINGS_AT_ONCE])))
            watch(min((start + SETTINGS_AT_ONCE) / len(clicks), 1.0))
        return {name: np.concatenate([p[name] for p in parts]) for name in parts[0]}

    def _figures(self, scene: Scene, damping: Sides) -> dict[str, FloatArray]:
        """Figures on the road, and of the body from the drive alone."""
        out = run_figures(self.half, scene, damping)
        alone = run_figures(self.half, level(scene), damping) if scene.surface.roughness else out
        still = {f"level_{name}": alone[name] for name in LEVEL if name in alone}
        lift = np.maximum(np.maximum(alone["nose_rise_m"], alone["rear_lift_m"]), 0.0)
        return out | still | {"level_body_lift_m": lift}

    def _sides(self, clicks: IntArray) -> Sides:
        turned = [self.tables[d].take(self.clicked.rows(d, clicks)) for d in DIRECTIONS]
        still = [self.others.hinges(d).take(np.full(len(clicks), NOMINAL)) for d in DIRECTIONS]
        return Sides(*turned, *still) if self.axle == "front" else Sides(*still, *turned)


def _worth_another(figures: Mapping[str, FloatArray], objective: str) -> IntArray:
    """Return the settings that the coarse pass leaves in the running."""
    wanted = OBJECTIVES[objective]
    leading = np.argsort(figures[wanted.aim], kind="stable")[:AGAIN]
    line = pareto(figures[wanted.aim], figures[wanted.against])
    return np.asarray(np.unique(np.concatenate([leading, line])), dtype=int)


def _front(figures: Mapping[str, FloatArray], objective: str, fine: BoolArray) -> IntArray:
    wanted = OBJECTIVES[objective]
    rows = np.flatnonzero(fine)
    return np.asarray(rows[pareto(figures[wanted.aim][rows], figures[wanted.against][rows])], dtype=int)


def _best(figures: Mapping[str, FloatArray], objective: str, clicks: IntArray, fine: BoolArray, now: int | None) -> int:
    aim = figures[OBJECTIVES[objective].aim]
    rows = np.flatnonzero(fine)
    good = rows[aim[rows] <= aim[rows].min() + TIE * (aim.max() - aim.min())]
    away = np.abs(clicks[good] - clicks[now]).sum(axis=1) if now is not None else np.zeros(len(good))
    return int(good[np.lexsort((aim[good], away))[0]])
